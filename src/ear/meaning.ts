import type { Grammar } from '../domain/hearing/grammar';

export type Arc = Grammar['arcs'][number];

const leaving = new WeakMap<Grammar, Map<number, Arc[]>>();

/**
 * A name of what an utterance of the grammar means: the same for two that say the same in other
 * words or another order. Where the grammar tells no meanings, the words themselves.
 */
export const meaningOf = (grammar: Grammar, text: string): string =>
  meaningsIn(grammar, text)?.sort().join() ?? text;

/** What the parts of it mean; null where the grammar tells no meanings, or lacks the text. */
export function meaningsIn(grammar: Grammar, text: string): string[] | null {
  if (!tellsMeanings(grammar)) return null;
  const finals = new Set(grammar.finals);
  const from = (state: number, rest: string): string[] | null => {
    if (rest === '') return finals.has(state) ? [] : null;
    for (const { words, to, means } of arcsFrom(grammar, state)) {
      if (rest !== words && !rest.startsWith(`${words} `)) continue;
      const after = from(to, rest.slice(words.length + 1));
      if (after !== null) return means === undefined ? after : [means, ...after];
    }
    return null;
  };
  return from(0, text);
}

/** What the words that follow add to what was meant. */
type Added = 'nothing' | 'pain' | 'more';

/**
 * What may follow an utterance and would add to what it means; `rest`: of another reply, which
 * sounds so where it begins.
 */
export type Following = 'nothing' | 'rest' | 'little' | 'more';

/**
 * What else the grammar lets follow these words: nothing that counts; a little, pain or the rest
 * of one phrase ("next", "next athlete"); or more.
 */
export function followingOf(grammar: Grammar, text: string): Exclude<Following, 'rest'> {
  const told = tellsMeanings(grammar);
  const said = new Set(meaningsIn(grammar, text) ?? []);
  const finals = new Set(grammar.finals);
  let found: Exclude<Following, 'rest'> = 'nothing';
  const seen = new Set<string>();
  /** Follows every way on from here, `whole` where the words said so far were an utterance. */
  const goOn = (state: number, whole: boolean, added: Added): void => {
    // Many ways lead to one place: each is followed once for all that counts.
    const place = `${state} ${whole} ${added}`;
    if (found === 'more' || seen.has(place)) return;
    seen.add(place);
    if (finals.has(state) && added !== 'nothing')
      found = !whole || added === 'pain' ? 'little' : 'more';
    for (const arc of arcsFrom(grammar, state)) goOn(arc.to, whole, joined(added, arc));
  };
  const joined = (added: Added, { words, means = told ? undefined : words }: Arc): Added => {
    // A "stop" is told by itself as well, so nothing waits for it.
    if (means === undefined || said.has(means) || means.includes('"command":"stop"')) return added;
    return means.includes('pain') && added !== 'more' ? 'pain' : 'more';
  };
  const follow = (state: number, rest: string): void => {
    if (rest === '') return goOn(state, finals.has(state), 'nothing');
    for (const arc of arcsFrom(grammar, state)) {
      const { words, to } = arc;
      if (rest === words || rest.startsWith(`${words} `)) follow(to, rest.slice(words.length + 1));
      else if (words.startsWith(`${rest} `)) goOn(to, false, joined('nothing', arc));
    }
  };
  follow(0, text);
  return found;
}

const tellsMeanings = (grammar: Grammar) => grammar.arcs.some(({ means }) => means !== undefined);

export function arcsFrom(grammar: Grammar, state: number): Arc[] {
  const arcs = leaving.get(grammar) ?? arcsByState(grammar);
  leaving.set(grammar, arcs);
  return arcs.get(state) ?? [];
}

function arcsByState(grammar: Grammar): Map<number, Arc[]> {
  const byState = new Map<number, Arc[]>();
  for (const arc of grammar.arcs) byState.set(arc.from, [...(byState.get(arc.from) ?? []), arc]);
  return byState;
}

import type { Grammar } from '../domain/hearing/grammar';

type Arc = Grammar['arcs'][number];

const leaving = new WeakMap<Grammar, Map<number, Arc[]>>();

/**
 * A name of what an utterance of the grammar means: the same for two that say the same in other
 * words or another order. Where the grammar tells no meanings, the words themselves.
 */
export function meaningOf(grammar: Grammar, text: string): string {
  const arcs = leaving.get(grammar) ?? arcsByState(grammar);
  leaving.set(grammar, arcs);
  const finals = new Set(grammar.finals);
  const from = (state: number, rest: string): string[] | null => {
    if (rest === '') return finals.has(state) ? [] : null;
    for (const { words, to, means } of arcs.get(state) ?? []) {
      if (rest !== words && !rest.startsWith(`${words} `)) continue;
      const after = from(to, rest.slice(words.length + 1));
      if (after !== null) return means === undefined ? after : [means, ...after];
    }
    return null;
  };
  const meant = grammar.arcs.some(({ means }) => means !== undefined) ? from(0, text) : null;
  return meant?.sort().join() ?? text;
}

function arcsByState(grammar: Grammar): Map<number, Arc[]> {
  const byState = new Map<number, Arc[]>();
  for (const arc of grammar.arcs) byState.set(arc.from, [...(byState.get(arc.from) ?? []), arc]);
  return byState;
}

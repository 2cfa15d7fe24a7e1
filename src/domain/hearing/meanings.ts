import type { Side } from '../areas';
import type { FaultId } from '../faults';
import type { PainKind, RedFlag } from '../findings';
import type { CueBook } from '../script';
import { entries } from './entries';
import { wholly, within } from './loosely';
import { phrasesOf } from './patterns';
import type {
  FaultWords,
  LooseWords,
  Pattern,
  ResultWord,
  SpokenCommand,
  Talk,
  Vocabulary,
  Ways,
} from './vocabulary';

/** What a phrase can mean; a phrase may have several meanings until its neighbours decide. */
export type Meaning =
  | { is: 'side'; side: Side | 'both' }
  | { is: 'result'; result: ResultWord }
  | { is: 'fault'; fault: FaultId; noun: boolean }
  | { is: 'part'; part: string }
  | { is: 'state'; state: string; noun: boolean }
  | { is: 'pain' | 'sharp' | 'no-pain' | 'nothing' | 'not-pain' | 'place' }
  | { is: 'kind'; kind: PainKind }
  | { is: 'red-flag'; flag: RedFlag }
  | { is: 'degrees' | 'of-ten' | 'counted' | 'counting' | 'between' }
  | { is: keyof Talk };

/** Everything a book can be told, ready to look up. */
export interface Meanings {
  phrases: Map<string, Meaning[]>;
  /** The first words of longer phrases. */
  openings: Set<string>;
  /** Length of the longest phrase, words. */
  longest: number;
  mayPass: Set<string>;
  commands: Map<string, { command: SpokenCommand; clear: boolean }>;
  /** What opens a go-to; after some only a whole name counts, since athletes hear them too. */
  openers: Map<string, { wholeOnly: boolean }>;
  /** Commands and red flags in words with small ones anywhere between them. */
  loosely: Loosely;
}

interface Loosely {
  commands: { command: SpokenCommand; expression: RegExp }[];
  redFlags: { flag: RedFlag; expression: RegExp }[];
  /** Small words of commands, and of what is told of a body. */
  small: ReadonlySet<string>;
  told: ReadonlySet<string>;
}

const known = new WeakMap<Vocabulary, Meanings>();

/** The meanings of a book, made once for its vocabulary. */
export function meaningsOf({ vocabulary }: CueBook): Meanings {
  const made = known.get(vocabulary) ?? gather(vocabulary);
  known.set(vocabulary, made);
  return made;
}

/** Whether a word means something, or begins what does. */
export const isKnown = ({ phrases, openings, commands }: Meanings, word: string): boolean =>
  phrases.has(word) || openings.has(word) || commands.has(word);

function gather(vocabulary: Vocabulary): Meanings {
  // The page fetches these apart (src/cues/plugin.ts); without them a reply would be half understood.
  if (Object.keys(vocabulary.talk).length === 0)
    throw new Error('The words that replies are understood by are not there.');
  const { numbers, sides, results, parts, states, faults, pain, redFlags, talk, ...rest } =
    vocabulary;
  const phrases = new Map<string, Meaning[]>();
  let longest = 1;
  const add = (patterns: Pattern[], meaning: Meaning) => {
    for (const pattern of patterns)
      for (const phrase of phrasesOf(pattern)) {
        longest = Math.max(longest, phrase.split(' ').length);
        const before = phrases.get(phrase);
        if (before) before.push(meaning);
        else phrases.set(phrase, [meaning]);
      }
  };
  const all = ({ say, also }: Ways) => [...say, ...also];
  for (const side of ['left', 'right', 'both'] as const)
    add(all(sides[side]), { is: 'side', side });
  for (const [result, ways] of entries(results)) add(all(ways), { is: 'result', result });
  for (const [part, ways] of entries(parts)) add(ways, { is: 'part', part });
  for (const [state, { words, nouns }] of entries(states)) {
    add(words, { is: 'state', state, noun: false });
    add(nouns, { is: 'state', state, noun: true });
  }
  const nouns = new Set(Object.values(states).flatMap((state) => state.nouns.flatMap(phrasesOf)));
  const isReadBySigns = signReader(phrases);
  for (const fault of faults)
    for (const phrase of all(fault).flatMap(phrasesOf)) {
      if (isReadBySigns(fault, phrase)) continue;
      const noun = nouns.has(phrase.slice(phrase.lastIndexOf(' ') + 1));
      add([phrase], { is: 'fault', fault: fault.id, noun });
    }
  add(all(pain.words), { is: 'pain' });
  add(all(pain.sharpWords), { is: 'sharp' });
  add(all(pain.none), { is: 'no-pain' });
  add(pain.nothing, { is: 'nothing' });
  add(pain.notPain, { is: 'not-pain' });
  add(pain.places, { is: 'place' });
  for (const [kind, ways] of entries(pain.kinds)) {
    add([...ways.before, ...all(ways)], { is: 'kind', kind });
    add(ways.before, { is: 'pain' });
  }
  for (const [flag, ways] of entries(redFlags)) add(all(ways), { is: 'red-flag', flag });
  add(numbers.degrees, { is: 'degrees' });
  add(numbers.ofTen, { is: 'of-ten' });
  add(numbers.counted, { is: 'counted' });
  add(numbers.counting, { is: 'counting' });
  add(numbers.between, { is: 'between' });
  for (const [role, ways] of entries(talk)) add(ways, { is: role });
  const mayPass = new Set(rest.mayPass.flatMap(phrasesOf));
  const longer = [...phrases.keys()].filter((phrase) => phrase.includes(' '));
  const openings = new Set(longer.map((phrase) => phrase.slice(0, phrase.indexOf(' '))));
  const loosely = looselyOf(vocabulary.loosely);
  return { phrases, openings, longest, mayPass, loosely, ...commandsOf(rest) };
}

/** Whether a fault's phrase is a part and a state of its own signs: what joins and denies them is read too. */
function signReader(
  phrases: Map<string, Meaning[]>,
): (fault: FaultWords, phrase: string) => boolean {
  const NONE: string[] = [];
  const parts = new Map<string, string[]>();
  const states = new Map<string, string[]>();
  const results = new Set<string>();
  for (const [phrase, meanings] of phrases)
    for (const meaning of meanings) {
      if (meaning.is === 'part') parts.set(phrase, [...(parts.get(phrase) ?? NONE), meaning.part]);
      if (meaning.is === 'state')
        states.set(phrase, [...(states.get(phrase) ?? NONE), meaning.state]);
      if (meaning.is === 'result') results.add(phrase);
    }
  const partsIn = (some: string[]) => parts.get(some.join(' ')) ?? NONE;
  const statesIn = (some: string[]) => states.get(some.join(' ')) ?? NONE;
  return ({ signs }, phrase) => {
    const words = phrase.split(' ');
    return words.some((_, at) => {
      const [before, rest, later] = [words.slice(0, at), words.slice(at), words.slice(at + 1)];
      const turned = at === 1 && !results.has(before.join(' '));
      const partsHere = [...partsIn(before), ...partsIn(before.slice(1))];
      if (turned) partsHere.push(...partsIn(rest), ...partsIn(later));
      // Most phrases end here, and all of a book's are read before its first word is understood.
      if (partsHere.length === 0) return false;
      const statesHere = [
        ...statesIn(rest),
        ...statesIn(later),
        ...(turned ? statesIn(before) : []),
      ];
      return signs.some(
        ({ about, is }) =>
          about.some((part) => partsHere.includes(part)) &&
          is.some((state) => statesHere.includes(state)),
      );
    });
  };
}

function looselyOf({ commands, redFlags, small, told, before, after }: LooseWords): Loosely {
  return {
    commands: entries(commands).map(([command, patterns]) => ({
      command,
      expression: wholly(patterns, before, after),
    })),
    redFlags: entries(redFlags).map(([flag, patterns]) => ({
      flag,
      expression: within(patterns),
    })),
    small: new Set(small),
    told: new Set([...small, ...told]),
  };
}

function commandsOf({
  commands,
  unclearCommands,
  goTo,
}: Pick<CueBook['vocabulary'], 'commands' | 'unclearCommands' | 'goTo'>): Pick<
  Meanings,
  'commands' | 'openers'
> {
  const spoken = new Map<string, { command: SpokenCommand; clear: boolean }>();
  for (const [command, { say, also }] of entries(commands))
    for (const phrase of [...say, ...also].flatMap(phrasesOf))
      if (!spoken.has(phrase)) spoken.set(phrase, { command, clear: true });
  for (const { command, words } of unclearCommands)
    for (const phrase of words.flatMap(phrasesOf)) spoken.set(phrase, { command, clear: false });
  const { say, also, wholeNames } = goTo.openers;
  const whole = new Set(wholeNames.flatMap(phrasesOf));
  const openers = new Map(
    [...say, ...also, ...wholeNames]
      .flatMap(phrasesOf)
      .map((phrase) => [phrase, { wholeOnly: whole.has(phrase) }]),
  );
  return { commands: spoken, openers };
}

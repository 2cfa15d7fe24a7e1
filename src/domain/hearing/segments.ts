import { bare, stretchesOf } from './loosely';
import type { Meaning, Meanings } from './meanings';
import { numberAt } from './numbers';
import type { Vocabulary } from './vocabulary';
import type { Word } from './words';

/** A stretch of an utterance with what it may mean. */
export interface Segment {
  text: string;
  /** Words from the start of the utterance. */
  at: number;
  meanings: Meaning[];
  /** A number read here, or null. */
  number: number | null;
  /** Punctuation stands before it. */
  after: boolean;
  /** Holds a word that tells rather than orders ("stayed"). */
  tells: boolean;
  /** How it was matched; `sounds` is a near-homophone, `unknown` has no meaning. */
  by: 'word' | 'ending' | 'sounds' | 'unknown';
}

const COST = { word: 1, ending: 1.2, sounds: 1.5, unknown: 3 } as const;

/** Meanings whose words may take other endings. */
const BENDS: Meaning['is'][] = [
  'side',
  ...(['part', 'state', 'fault', 'pain', 'sharp', 'not-pain', 'place'] as const),
  ...(['red-flag', 'praise', 'fillers'] as const),
];

/** Cuts words into the fewest known phrases; a phrase never reaches over punctuation. */
export function segmentsOf(
  vocabulary: Vocabulary,
  meanings: Meanings,
  words: Word[],
  mayMean: (meaning: Meaning) => boolean,
): Segment[] {
  const texts = words.map(({ text }) => text);
  const flagged = flaggedIn(vocabulary, meanings, words);
  const best: { cost: number; segment: Segment | null; from: number }[] = [
    { cost: 0, segment: null, from: 0 },
  ];
  for (let at = 0; at < words.length; at++) {
    const cost = best[at]?.cost ?? Infinity;
    const starting = startingAt(vocabulary, meanings, words, texts, at, mayMean);
    for (const { segment, length } of [...(flagged.get(at) ?? []), ...starting]) {
      const total = cost + COST[segment.by];
      if (total < (best[at + length]?.cost ?? Infinity))
        best[at + length] = { cost: total, segment, from: at };
    }
  }
  const segments: Segment[] = [];
  for (let at = words.length; at > 0;) {
    const step = best[at];
    if (!step?.segment) break;
    segments.unshift(step.segment);
    at = step.from;
  }
  return segments;
}

type Flagged = Map<number, { segment: Segment; length: number }[]>;

const flaggedBefore = new WeakMap<Word[], { of: Meanings['loosely']; found: Flagged }>();

/** Red flags in words with small ones between, where they begin; none reaches over punctuation. */
function flaggedIn(vocabulary: Vocabulary, { loosely }: Meanings, words: Word[]): Flagged {
  // The same words are cut several times, by what each phrase may mean.
  const made = flaggedBefore.get(words);
  if (made?.of === loosely) return made.found;
  const found: Flagged = new Map();
  flaggedBefore.set(words, { of: loosely, found });
  const said = bare(vocabulary.numbers, loosely.told, words);
  for (const { flag, expression } of loosely.redFlags)
    for (const { at, length } of stretchesOf(expression, said)) {
      const taken = words.slice(at, at + length);
      if (taken.slice(1).some((word) => word.after)) continue;
      const text = taken.map((word) => word.text).join(' ');
      const after = words[at]?.after ?? false;
      const meanings: Meaning[] = [{ is: 'red-flag', flag }];
      const segment = {
        text,
        at,
        meanings,
        number: null,
        after,
        tells: false,
        by: 'word',
      } as const;
      found.set(at, [...(found.get(at) ?? []), { segment, length }]);
    }
  return found;
}

function startingAt(
  vocabulary: Vocabulary,
  meanings: Meanings,
  words: Word[],
  texts: string[],
  at: number,
  mayMean: (meaning: Meaning) => boolean,
): { segment: Segment; length: number }[] {
  const found: { segment: Segment; length: number }[] = [];
  const after = words[at]?.after ?? false;
  const add = (
    length: number,
    by: Segment['by'],
    possible: Meaning[],
    number: number | null = null,
  ) => {
    const taken = texts.slice(at, at + length);
    const tells = taken.some((text) => look(text).some(({ is }) => is === 'telling'));
    const text = taken.join(' ');
    found.push({ length, segment: { text, at, meanings: possible, number, after, tells, by } });
  };
  const look = (phrase: string) => (meanings.phrases.get(phrase) ?? []).filter(mayMean);
  const unbroken = words.slice(at + 1).findIndex((word) => word.after);
  const room = unbroken === -1 ? words.length - at : unbroken + 1;
  const number = numberAt(vocabulary.numbers, texts.slice(0, at + room), at);
  if (number) {
    const meaning = number.length === 1 ? look(texts[at] ?? '') : [];
    add(number.length, 'word', meaning, number.value);
  }
  const longest = meanings.openings.has(texts[at] ?? '') ? meanings.longest : 1;
  for (let length = Math.min(room, longest); length > 0; length--) {
    const possible = look(texts.slice(at, at + length).join(' '));
    if (possible.length > 0 && !(number && length <= number.length)) add(length, 'word', possible);
  }
  const word = texts[at] ?? '';
  // "Folding over" is of "folded over".
  // At the start of a clause the bare verb orders ("lean back").
  const orders = at === 0 || after || look(word).some(({ is }) => is === 'orders');
  const grows = !orders && !number && !Object.hasOwn(vocabulary.soundsLike, word);
  const grown = grows ? grownOf(vocabulary, word) : [];
  const forms = number ? [] : [...stemsOf(vocabulary, word), ...grown];
  const mayBe = (form: string, is: Meaning['is']) =>
    BENDS.includes(is) && (!grown.includes(form) || is === 'state' || is === 'fault');
  for (const stem of forms.filter((form) => meanings.openings.has(form)))
    for (let length = Math.min(room, meanings.longest); length > 1; length--) {
      const rest = texts.slice(at + 1, at + length).join(' ');
      if (found.some((each) => each.length === length)) continue;
      const loose = look(`${stem} ${rest}`);
      const bent = loose.filter(({ is }) => mayBe(stem, is));
      if (bent.length > 0 && bent.length === loose.length) add(length, 'ending', bent);
    }
  if (!number && look(word).length === 0) {
    const loose = forms
      .filter((stem) => !look(stem).some(({ is }) => is === 'result'))
      .map((stem) => look(stem).filter(({ is }) => mayBe(stem, is)))
      .find((each) => each.length > 0);
    if (loose) add(1, 'ending', loose);
    const meant = Object.hasOwn(vocabulary.soundsLike, word) ? vocabulary.soundsLike[word] : null;
    const isAdverb = vocabulary.adverbEndings.some((ending) => word.endsWith(ending));
    if (meant) add(1, 'sounds', look(meant));
    else if (!loose && isAdverb) add(1, 'word', [{ is: 'fillers' }]);
    else if (!loose) add(1, 'unknown', []);
  }
  if (found.length === 0) add(1, 'unknown', []);
  return found;
}

/** The forms that a word may come from or go to: its endings off or on, a doubled letter single. */
function stemsOf({ endings, endingsFor, doublesLetters }: Vocabulary, word: string): string[] {
  return endings
    .filter((ending) => word.endsWith(ending) && word.length - ending.length >= 3)
    .flatMap((ending) => {
      const stem = word.slice(0, -ending.length);
      if (ending.length === 1) return [stem];
      const single = doublesLetters ? [stem.replace(/(.)\1$/, '$1')] : [];
      return [stem, ...single, ...endingsFor.map((other) => `${stem}${other}`)];
    });
}

/** "Drift" of "drifted", "sag" of "sagged". */
function grownOf({ endings, doublesLetters }: Vocabulary, word: string): string[] {
  if (word.length < 3) return [];
  const doubled = doublesLetters ? [`${word}${word.at(-1) ?? ''}`] : [];
  return [word, ...doubled].flatMap((stem) =>
    endings.filter((ending) => /^\p{L}/u.test(ending)).map((ending) => `${stem}${ending}`),
  );
}

/** Whether a segment may mean this. */
export const means = (segment: Segment | undefined, is: Meaning['is']): boolean =>
  segment?.meanings.some((meaning) => meaning.is === is) ?? false;

/** Whether a segment may say that it was a pass. */
export const holds = (segment: Segment | undefined): boolean =>
  segment?.meanings.some((meaning) => meaning.is === 'result' && meaning.result === 'held') ??
  false;

/** What tells when something happened, to the next comma or joining word ("as the bar passed"). */
export const circumstancesIn = (segments: Segment[]): Set<Segment> =>
  stretchFrom(segments, 'circumstances');

/** What a likeness tells, to the next comma or joining word ("clear as a bell"). */
export const likenessIn = (segments: Segment[]): Set<Segment> =>
  stretchFrom(segments, 'likenesses');

function stretchFrom(segments: Segment[], opens: 'circumstances' | 'likenesses'): Set<Segment> {
  let within = false;
  return new Set(
    segments.filter((segment) => {
      if (segment.after || means(segment, 'joins')) within = false;
      within ||= means(segment, opens);
      return within;
    }),
  );
}

import type { Lexicon } from '../lexicon';
import { UNFITTED, type CoachEar, type Reading, type Swap } from './coachEar';
import { aligned, apart } from './rows';

/** A reading further than this from its words, phones amiss of all, was something else. */
const OTHER_WORDS = 0.6;
/** So often the same row makes a pronunciation. */
const VARIANT_TIMES = 2;
/** A pronunciation differs in half of its phones at most. */
const VARIANT_AMISS = 0.5;
/** So often, and in this share of times, one phone must be another. */
const SWAP_TIMES = 3;
const SWAP_SHARE = 0.3;
/** Where two words differ by just these phones, no more than this, so that each stays itself. */
const SWAP_OF_PAIR = 0.5;
const MOST_SHARE = 0.9;
/** Fewer readings than this say nothing of the confidence; nor do they where one in ten is lost. */
const OFFSET_READINGS = 12;
const OFFSET_HEARD = 0.9;
/** Readings below which one in ten lies should still reach this, in natural logarithms of odds. */
const OFFSET_REACHES = 1.5;
const LOWEST_OFFSET = -0.7;

/** A word of a reading: its phones by the lexicon, and what was heard of each. */
interface WordRead {
  word: string;
  said: string[];
  pieces: string[][];
}

/**
 * What readings teach of a coach; the same readings always teach the same. `lexicon` holds every
 * word that can be heard, so that nothing is learnt that is nearer to another word. Bounded: an
 * untypical reading changes nothing.
 */
export function fitted(readings: Reading[], lexicon: Lexicon): CoachEar {
  const read = readings.flatMap((reading) => wordsRead(reading, lexicon));
  return {
    ...UNFITTED,
    variants: variantsIn(read, lexicon),
    swaps: swapsIn(read, lexicon),
    offset: offsetFrom(readings),
  };
}

/** The words of a reading with what was heard of them; none where it was something else. */
function wordsRead({ text, phones }: Reading, lexicon: Lexicon): WordRead[] {
  const words = text.split(' ');
  const ways = words.reduce<string[][][]>(
    (ways, word) =>
      ways
        .flatMap((way) =>
          (Object.hasOwn(lexicon, word) ? (lexicon[word] ?? []) : []).map((said) => [...way, said]),
        )
        .slice(0, MOST_WAYS),
    [[]],
  );
  const best = ways
    .map((way) => ({ way, ...aligned(way.flat(), phones) }))
    .sort((a, b) => a.cost - b.cost)[0];
  if (best === undefined || best.cost > OTHER_WORDS * best.way.flat().length) return [];
  let at = 0;
  return words.map((word, index) => {
    const said = best.way[index] ?? [];
    const pieces = best.pieces.slice(at, at + said.length);
    at += said.length;
    return { word, said, pieces };
  });
}

/** Pronunciations of a whole utterance that are compared. */
const MOST_WAYS = 64;

function variantsIn(read: WordRead[], lexicon: Lexicon): Record<string, string[]> {
  const variants: Record<string, string[]> = {};
  const times = counted(read.map(({ word, pieces }) => [word, pieces.flat().join(' ')]));
  for (const [word, rows] of times)
    for (const [row, count] of rows)
      if (count >= VARIANT_TIMES && isVariant(word, row.split(' '), lexicon))
        (variants[word] ??= []).push(row);
  return variants;
}

/** Another way to say the word, and nearer to it than to any other. */
function isVariant(word: string, row: string[], lexicon: Lexicon): boolean {
  const nearest = (said: string[][]) => Math.min(...said.map((phones) => apart(phones, row)));
  const own = nearest(lexicon[word] ?? []);
  if (row[0] === '' || own === 0 || own > VARIANT_AMISS * row.length) return false;
  return Object.entries(lexicon).every(
    ([other, said]) => other === word || said.length === 0 || nearest(said) > own,
  );
}

function swapsIn(read: WordRead[], lexicon: Lexicon): Swap[] {
  const phones = read.flatMap(({ said, pieces }) =>
    said.map((phone, at): [string, string] => [phone, pieces[at]?.join(' ') ?? '']),
  );
  const pairs = pairsIn(lexicon);
  return [...counted(phones)].flatMap(([said, heard]) => {
    const all = [...heard.values()].reduce((sum, count) => sum + count, 0);
    return [...heard].flatMap(([other, count]) => {
      const share = count / all;
      if (other === said || other === '' || other.includes(' ')) return [];
      if (count < SWAP_TIMES || share < SWAP_SHARE) return [];
      const most = pairs.has(pairOf(said, other)) ? SWAP_OF_PAIR : MOST_SHARE;
      return [{ said, heard: other, share: Math.min(most, share) }];
    });
  });
}

const pairOf = (one: string, other: string) => [one, other].sort().join(' ');

/** Phones by which alone two words differ ("bent", "bend"). */
function pairsIn(lexicon: Lexicon): Set<string> {
  const pairs = new Set<string>();
  const seen = new Map<string, Set<string>>();
  for (const said of Object.values(lexicon).flat())
    said.forEach((phone, at) => {
      const rest = said.with(at, '_').join(' ');
      const phones = seen.get(rest) ?? new Set();
      for (const other of phones) if (other !== phone) pairs.add(pairOf(phone, other));
      seen.set(rest, phones.add(phone));
    });
  return pairs;
}

/** Lowers the confidence of a voice that is heard well, so that other talk passes less often. */
function offsetFrom(readings: Reading[]): number {
  const odds = readings
    .flatMap(({ confidence }) => (confidence === null ? [] : [oddsOf(confidence)]))
    .sort((a, b) => a - b);
  if (odds.length < OFFSET_READINGS || odds.length < OFFSET_HEARD * readings.length) return 0;
  const low = odds[Math.floor(odds.length / 10)] ?? 0;
  return Math.min(0, Math.max(LOWEST_OFFSET, (OFFSET_REACHES - low) / 2));
}

const oddsOf = (confidence: number) =>
  Math.log(Math.max(1e-4, confidence) / Math.max(1e-4, 1 - confidence));

function counted(pairs: [string, string][]): Map<string, Map<string, number>> {
  const counts = new Map<string, Map<string, number>>();
  for (const [key, value] of pairs) {
    const values = counts.get(key) ?? new Map<string, number>();
    counts.set(key, values.set(value, (values.get(value) ?? 0) + 1));
  }
  return counts;
}

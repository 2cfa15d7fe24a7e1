/**
 * Learns how letters sound from the CMU dictionary and writes src/ear/letterSounds.json:
 * `npx tsx tests/training/letterSounds.ts`, half a minute, the same each time.
 */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { dictionary } from 'cmu-pronouncing-dictionary';
import { BEYOND, soundsOfLetters, type Sounding } from '../../src/ear/letterSounds';

export interface Entry {
  word: string;
  phones: string[];
}

/** One word in twenty, by a hash of its letters (FNV-1a), is kept from learning. */
const isKept = (word: string) => {
  let hash = 0x811c9dc5;
  for (let at = 0; at < word.length; at += 1)
    hash = Math.imul(hash ^ word.charCodeAt(at), 0x01000193) >>> 0;
  return hash % 20 === 0;
};

/** First pronunciations of words of letters alone: those that were learnt from, or those kept. */
export const entries = (kept: boolean): Entry[] =>
  Object.entries(dictionary)
    .filter(([word]) => /^[a-z]{2,}$/.test(word) && isKept(word) === kept)
    .map(([word, said]) => ({ word, phones: said.replace(/[0-9]/g, '').split(' ') }));

/** Phones wrong of all phones, and words wholly right of all words. */
export function judged(trees?: Record<string, Sounding>) {
  const counts = { phones: 0, wrong: 0, words: 0, right: 0 };
  for (const { word, phones } of entries(true)) {
    const wrong = apart(soundsOfLetters(word, trees), phones);
    counts.phones += phones.length;
    counts.wrong += wrong;
    counts.words += 1;
    if (wrong === 0) counts.right += 1;
  }
  return counts;
}

function apart(one: string[], other: string[]): number {
  let row = Array.from({ length: other.length + 1 }, (_, at) => at);
  for (const phone of one) {
    const next = [(row[0] ?? 0) + 1];
    other.forEach((against, at) => {
      const same = (row[at] ?? 0) + (phone === against ? 0 : 1);
      next.push(Math.min(same, (row[at + 1] ?? 0) + 1, (next[at] ?? 0) + 1));
    });
    row = next;
  }
  return row[other.length] ?? 0;
}

/** A letter stands for so many phones at most ("x": K S). */
const MOST_PHONES = 2;
const ROUNDS = 6;
/** Before anything is known, one phone a letter is likeliest. */
const FIRST_COST = [3, 1, 5];
const UNKNOWN_COST = [14, 14, 18];

type Costs = Map<string, number>;

/** The phones of each letter, by the cheapest row of pieces; null where there is none. */
function aligned({ word, phones }: Entry, costs: Costs): string[] | null {
  const best = [...word, BEYOND].map(() => new Array<number>(phones.length + 1).fill(Infinity));
  const took = [...word, BEYOND].map(() => new Array<number>(phones.length + 1).fill(0));
  best[0]![0] = 0;
  for (let letter = 0; letter < word.length; letter += 1)
    for (let from = 0; from <= phones.length; from += 1)
      for (let count = 0; count <= MOST_PHONES && from + count <= phones.length; count += 1) {
        const piece = `${word[letter]} ${phones.slice(from, from + count).join(' ')}`;
        const known = costs.size === 0 ? FIRST_COST[count] : costs.get(piece);
        const cost = best[letter]![from]! + (known ?? UNKNOWN_COST[count]!);
        if (cost >= best[letter + 1]![from + count]!) continue;
        best[letter + 1]![from + count] = cost;
        took[letter + 1]![from + count] = count;
      }
  if (best[word.length]![phones.length] === Infinity) return null;
  const pieces: string[] = [];
  for (let letter = word.length, to = phones.length; letter > 0; letter -= 1) {
    const from = to - took[letter]![to]!;
    pieces.unshift(phones.slice(from, to).join(' '));
    to = from;
  }
  return pieces;
}

function costsFrom(taught: Entry[], before: Costs): Costs {
  const counts = new Map<string, number>();
  const letters = new Map<string, number>();
  for (const entry of taught)
    aligned(entry, before)?.forEach((said, at) => {
      const letter = entry.word[at]!;
      counts.set(`${letter} ${said}`, (counts.get(`${letter} ${said}`) ?? 0) + 1);
      letters.set(letter, (letters.get(letter) ?? 0) + 1);
    });
  return new Map(
    [...counts].flatMap(([piece, count]) =>
      count < 3 ? [] : [[piece, -Math.log(count / letters.get(piece[0]!)!)] as const],
    ),
  );
}

interface Example {
  word: string;
  at: number;
  said: string;
}

const PLACES = [1, -1, 2, -2, 3, -3, 4, -4, 5];
/** Of the places not looked at yet, the next so many are compared. */
const COMPARED = 6;
/** Fewer exceptions than this are not learnt. */
const LEAST = 2;

const letterAt = ({ word, at }: Example, place: number) => word[at + place] ?? BEYOND;

function grouped<T>(examples: Example[], key: (example: Example) => T): Map<T, Example[]> {
  const groups = new Map<T, Example[]>();
  for (const example of examples) {
    const group = groups.get(key(example));
    if (group) group.push(example);
    else groups.set(key(example), [example]);
  }
  return groups;
}

/** What is left open, in bits, once the letter at this place is known. */
function leftOpen(examples: Example[], place: number): number {
  let bits = 0;
  for (const group of grouped(examples, (example) => letterAt(example, place)).values())
    for (const same of grouped(group, ({ said }) => said).values())
      bits -= same.length * Math.log2(same.length / group.length);
  return bits;
}

function grown(examples: Example[], places: number[]): Sounding {
  const ways = [...grouped(examples, ({ said }) => said)];
  const [said, same] = ways.reduce((most, way) => (way[1].length > most[1].length ? way : most));
  if (places.length === 0 || examples.length - same.length < LEAST) return said;
  const place = places
    .slice(0, COMPARED)
    .map((place) => ({ place, bits: leftOpen(examples, place) }))
    .reduce((best, each) => (each.bits < best.bits - 1e-9 ? each : best)).place;
  const rest = places.filter((other) => other !== place);
  const by: Record<string, Sounding> = {};
  for (const [letter, group] of grouped(examples, (example) => letterAt(example, place))) {
    if (group.length < LEAST || group.length === examples.length) continue;
    const sounding = grown(group, rest);
    if (sounding !== said) by[letter] = sounding;
  }
  return Object.keys(by).length === 0 ? said : [said, place, by];
}

/** A tree for each letter. */
export function learntFrom(taught: Entry[]): Record<string, Sounding> {
  let costs: Costs = new Map();
  for (let round = 0; round < ROUNDS; round += 1) costs = costsFrom(taught, costs);
  const examples = taught.flatMap((entry) =>
    (aligned(entry, costs) ?? []).map((said, at) => ({ word: entry.word, at, said })),
  );
  return Object.fromEntries(
    [...grouped(examples, ({ word, at }) => word[at]!)].map(([letter, some]) => [
      letter,
      grown(some, PLACES),
    ]),
  );
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const trees = learntFrom(entries(false));
  writeFileSync(
    new URL('../../src/ear/letterSounds.json', import.meta.url),
    `${JSON.stringify(trees)}\n`,
  );
  console.log(judged(trees));
}

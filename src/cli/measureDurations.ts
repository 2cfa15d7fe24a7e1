/**
 * Measures how long the shipped voice takes for every word of the cue scripts and writes the table
 * that gives each cue its length: `npx tsx src/cli/measureDurations.ts [language]`. Run it by hand
 * after new words came into the scripts; a word that was not measured is estimated by its letters.
 *
 * A word alone is longer than inside a sentence, so the words are scaled, and the gaps found, by
 * least squares over every line as it is really spoken.
 */
import { writeFileSync } from 'node:fs';
import { loadBook } from '../cues/fromFolder';
import { spokenTexts } from '../cues/spoken';
import { partsOf, secondsOf, type Durations } from '../domain/pacing/duration';
import { fliteInNode } from '../voice/node';

const language = process.argv[2] ?? 'en';
const voice = await fliteInNode();
const spokenSeconds = (text: string): number => {
  const { samples, sampleRate } = voice.synthesize(text);
  return samples.length / sampleRate;
};

const book = loadBook('scripts-cues', language);
const names = [...Object.values(book.checks), ...Object.values(book.drills)].map(
  ({ name }) => name,
);
const texts = [
  ...new Set([
    ...spokenTexts(book).map(({ text }) => text.replace(/\{[\w-]+\}/g, 'six')),
    ...names,
    ...Object.values(book.faults).map(({ readback }) => readback),
  ]),
];
const alone: Record<string, number> = {};
for (const word of texts.flatMap((text) => partsOf(text).flatMap((part) => part.word ?? []))) {
  alone[word] ??= spokenSeconds(word);
}

/** What a line is made of: its words' seconds alone, its commas, its gaps between sentences, and 1. */
const makeUp = (text: string): number[] => {
  const parts = partsOf(text);
  const inside = parts.slice(
    0,
    parts.findLastIndex(({ word }) => word !== undefined),
  );
  const isEnd = (mark: string | undefined) => mark !== undefined && /[.!?]/.test(mark);
  return [
    parts.reduce((sum, { word }) => sum + (word === undefined ? 0 : (alone[word] ?? 0)), 0),
    inside.filter(({ mark }) => mark !== undefined && !isEnd(mark)).length,
    inside.filter(({ mark }) => isEnd(mark)).length,
    1,
  ];
};

/** Least squares by the normal equations and Gauss-Jordan elimination. */
function fit(rows: number[][], values: number[]): number[] {
  const size = rows[0]?.length ?? 0;
  const sum = (of: (row: number[], at: number) => number) =>
    rows.reduce((total, row, at) => total + of(row, at), 0);
  const matrix = Array.from({ length: size }, (_, one) => [
    ...Array.from({ length: size }, (__, other) =>
      sum((row) => (row[one] ?? 0) * (row[other] ?? 0)),
    ),
    sum((row, at) => (row[one] ?? 0) * (values[at] ?? 0)),
  ]);
  for (const [pivot, row] of matrix.entries()) {
    const head = row[pivot] ?? 1;
    row.forEach((value, column) => (row[column] = value / head));
    matrix.forEach((other, at) => {
      const factor = other[pivot] ?? 0;
      if (at !== pivot)
        row.forEach((value, column) => (other[column] = (other[column] ?? 0) - factor * value));
    });
  }
  return matrix.map((row) => row[size] ?? 0);
}

const measured = texts.map(spokenSeconds);
const [scale = 1, comma = 0, sentence = 0, line = 0] = fit(texts.map(makeUp), measured);
const rounded = (seconds: number): number => Math.round(seconds * 1000) / 1000;
const words = Object.entries(alone).sort(([one], [other]) => (one < other ? -1 : 1));
const letters = words.reduce((sum, [word]) => sum + [...word].length, 0);
const durations: Durations = {
  lineSeconds: rounded(line),
  commaSeconds: rounded(comma),
  sentenceSeconds: rounded(sentence),
  secondsPerLetter: rounded(words.reduce((sum, [, alike]) => sum + alike * scale, 0) / letters),
  words: Object.fromEntries(words.map(([word, seconds]) => [word, rounded(seconds * scale)])),
};
writeFileSync('src/cues/durations.json', `${JSON.stringify(durations, null, 2)}\n`);

const errors = texts
  .map((text, at) => ({ text, off: secondsOf(durations, text) - (measured[at] ?? 0) }))
  .sort((one, other) => Math.abs(other.off) - Math.abs(one.off));
const mean = errors.reduce((sum, { off }) => sum + Math.abs(off), 0) / errors.length;
const wordCount = texts.flatMap(partsOf).filter(({ word }) => word !== undefined).length;
const perMinute = (wordCount / measured.reduce((sum, seconds) => sum + seconds, 0)) * 60;
console.error(
  `${texts.length} lines, ${words.length} words, ${perMinute.toFixed(0)} words a minute; ` +
    `off by ${mean.toFixed(2)} s on average, at most ${errors[0]?.off.toFixed(2)} s in "${errors[0]?.text}"`,
);

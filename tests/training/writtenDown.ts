/** What the decoder wrote, and how sure it was: natural logarithms, the mean of its tokens and the worst. */
export interface Written {
  text: string;
  score: number;
  worst: number;
}

const RATE = 16_000;
const FRAME = 160;
const SHORTEST_SECONDS = 0.3;
const LONGEST_SECONDS = 5.2;
/** Of the loudest frame; what is quieter at both ends is cut off, but for so many frames. */
const QUIET = 0.03;
const BEFORE_FRAMES = 4;
const AFTER_FRAMES = 6;
const SURE = { score: -0.36, worst: -1.5 };

/** The spoken part of a line, 16 kHz; null where it is too short or too long to learn from. */
export function spokenIn(samples: Float32Array): Float32Array | null {
  const loud = Array.from({ length: Math.floor(samples.length / FRAME) }, (_, at) =>
    Math.sqrt(
      samples.subarray(at * FRAME, (at + 1) * FRAME).reduce((sum, each) => sum + each * each, 0),
    ),
  );
  const heard = (value: number) => value >= Math.max(...loud) * QUIET;
  const from = Math.max(0, loud.findIndex(heard) - BEFORE_FRAMES);
  const to = Math.min(loud.length, loud.findLastIndex(heard) + 1 + AFTER_FRAMES);
  const spoken = samples.slice(from * FRAME, to * FRAME);
  const seconds = spoken.length / RATE;
  return seconds < SHORTEST_SECONDS || seconds > LONGEST_SECONDS ? null : spoken;
}

/** The words, or null where the decoder was not sure, or wrote a number or a word that is not `known`. */
export function surely(
  { text, score, worst }: Written,
  known: (word: string) => boolean,
): string[] | null {
  if (score < SURE.score || worst < SURE.worst || /\d/.test(text)) return null;
  const words = text
    .toLowerCase()
    .replace(/[^a-z' ]/g, ' ')
    .split(/\s+/)
    .map((word) => word.replace(/^'+|'+$/g, ''))
    .filter((word) => word !== '');
  return words.length > 0 && words.every(known) ? words : null;
}

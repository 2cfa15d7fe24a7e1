import { BLANK, OUTPUTS } from './phones';

/** What the head says of each frame, and the best that any row of phones could have scored. */
export interface Posteriors {
  /** Natural logarithms, `frames` rows of OUTPUTS. */
  log: Float32Array;
  frames: number;
  /** Score of the best row of phones, bound by no grammar. */
  freeScore: number;
  /** The latest talk of anybody in it; null where nobody talks. */
  talk: Talk | null;
}

/** Seconds of one row. */
export const ROW_SECONDS = 0.024;
/** A row in which the head finds it less likely than this that there is no phone is talk. */
const BLANK_LIKELY = Math.log(0.5);

/** The latest talk of anybody, in rows from its beginning and from its end to the end of the sound. */
export interface Talk {
  began: number;
  ended: number;
}

/** A silence of so many rows, 0.65 s, divides one talk from the next. */
const DIVIDING_ROWS = 27;

type Rows = Pick<Posteriors, 'log' | 'frames'>;

/**
 * The talk after the last silence that divides; null where nobody talks. Of several heads over one
 * sound each fills what another leaves silent.
 */
export function latestTalk(...heads: Rows[]): Talk | null {
  const frames = Math.min(...heads.map((head) => head.frames));
  const isSilent = (row: number) =>
    heads.every(({ log }) => (log[row * OUTPUTS + BLANK] as number) > BLANK_LIKELY);
  let began = -1;
  let ended = 0;
  for (let row = frames - 1; row >= 0; row -= 1) {
    if (isSilent(row)) continue;
    if (began < 0) ended = frames - 1 - row;
    else if (frames - row - began > DIVIDING_ROWS) break;
    began = frames - row;
  }
  return began < 0 ? null : { began, ended };
}

/** What was before the latest talk counts so much against a reply. */
const EARLIER_COUNTS = 0.25;
/** Sound before the first clear phone that still belongs to the talk. */
const BEFORE_TALK_ROWS = 12;

/** Asked for with each reading of the same rows. */
const known = new WeakMap<Posteriors, Float64Array>();

/**
 * By row: the score of all before it as no part of the reply. In a room full of talk the sound
 * begins long before the reply does.
 */
export function scoresBefore(posteriors: Posteriors): Float64Array {
  const scores = known.get(posteriors) ?? scored(posteriors);
  known.set(posteriors, scores);
  return scores;
}

function scored({ log, frames, talk }: Posteriors): Float64Array {
  const began = frames - (talk?.began ?? frames) - BEFORE_TALK_ROWS;
  const scores = new Float64Array(frames + 1);
  for (let row = 0; row < frames; row += 1) {
    const blank = log[row * OUTPUTS + BLANK] as number;
    const likeliest = likeliestOf(log, row * OUTPUTS);
    const cost = (row < began ? EARLIER_COUNTS : 1) * (blank - likeliest);
    scores[row + 1] = (scores[row] as number) + likeliest + cost;
  }
  return scores;
}

/** The largest of the row that begins there. */
function likeliestOf(rows: Float32Array, from: number): number {
  let largest = -Infinity;
  for (let at = from; at < from + OUTPUTS; at += 1) largest = Math.max(largest, rows[at] as number);
  return largest;
}

/** Turns the head's logits into log posteriors. */
export function posteriorsOf(logits: Float32Array): Posteriors {
  const frames = Math.floor(logits.length / OUTPUTS);
  const log = new Float32Array(frames * OUTPUTS);
  let freeScore = 0;
  for (let frame = 0; frame < frames; frame += 1) {
    const from = frame * OUTPUTS;
    const highest = likeliestOf(logits, from);
    let sum = 0;
    for (let at = from; at < from + OUTPUTS; at += 1)
      sum += Math.exp((logits[at] as number) - highest);
    const norm = highest + Math.log(sum);
    for (let at = from; at < from + OUTPUTS; at += 1) log[at] = (logits[at] as number) - norm;
    freeScore += highest - norm;
  }
  return { log, frames, freeScore, talk: latestTalk({ log, frames }) };
}

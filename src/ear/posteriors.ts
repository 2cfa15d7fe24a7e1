import { BLANK, OUTPUTS } from './phones';

/** What the head says of each frame, and the best that any row of phones could have scored. */
export interface Posteriors {
  /** Natural logarithms, `frames` rows of OUTPUTS. */
  log: Float32Array;
  frames: number;
  /** Score of the best row of phones, bound by no grammar. */
  freeScore: number;
  /** Phones of that row. */
  freePhones: number;
}

/** Turns the head's logits into log posteriors. */
export function posteriorsOf(logits: Float32Array): Posteriors {
  const frames = Math.floor(logits.length / OUTPUTS);
  const log = new Float32Array(frames * OUTPUTS);
  let freeScore = 0;
  let freePhones = 0;
  let before = BLANK;
  for (let frame = 0; frame < frames; frame += 1) {
    const row = logits.subarray(frame * OUTPUTS, (frame + 1) * OUTPUTS);
    let best = 0;
    for (let output = 1; output < OUTPUTS; output += 1)
      if (at(row, output) > at(row, best)) best = output;
    const highest = at(row, best);
    let sum = 0;
    for (const logit of row) sum += Math.exp(logit - highest);
    const norm = highest + Math.log(sum);
    for (let output = 0; output < OUTPUTS; output += 1)
      log[frame * OUTPUTS + output] = at(row, output) - norm;
    freeScore += highest - norm;
    if (best !== BLANK && best !== before) freePhones += 1;
    before = best;
  }
  return { log, frames, freeScore, freePhones };
}

const at = (row: Float32Array, index: number) => row[index] as number;

import { BLANK, OUTPUTS, PHONES } from '../phones';
import type { Posteriors } from '../posteriors';

/** The phones that were heard, bound by no reply: the best of each moment, repeats and blanks out. */
export function freeRowOf({ log, frames }: Posteriors): string[] {
  const row: string[] = [];
  let before = BLANK;
  for (let frame = 0; frame < frames; frame += 1) {
    let best = BLANK;
    for (let output = 1; output < OUTPUTS; output += 1)
      if ((log[frame * OUTPUTS + output] ?? 0) > (log[frame * OUTPUTS + best] ?? 0)) best = output;
    if (best !== BLANK && best !== before) row.push(PHONES[best - 1] ?? '');
    before = best;
  }
  return row;
}

const VOWELS = new Set('AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW'.split(' '));
/** Cost of another phone of the same kind, of another kind, and of one too many or too few. */
const KINDRED_COST = 0.6;
const OTHER_COST = 1.2;
const ODD_COST = 0.8;

const costOf = (one: string, other: string) =>
  one === other ? 0 : VOWELS.has(one) === VOWELS.has(other) ? KINDRED_COST : OTHER_COST;

/** How far two rows of phones are apart: 0 where they are the same, about 1 a phone amiss. */
export const apart = (one: string[], other: string[]): number => aligned(one, other).cost;

/** For each phone of `said` the phones of `heard` that stand for it; none where it was not heard. */
export function aligned(said: string[], heard: string[]): { cost: number; pieces: string[][] } {
  const width = heard.length + 1;
  const cost = new Float64Array((said.length + 1) * width);
  for (let at = 1; at < width; at += 1) cost[at] = at * ODD_COST;
  for (let row = 1; row <= said.length; row += 1) {
    cost[row * width] = row * ODD_COST;
    for (let at = 1; at < width; at += 1)
      cost[row * width + at] = Math.min(
        (cost[(row - 1) * width + at - 1] ?? 0) + costOf(said[row - 1] ?? '', heard[at - 1] ?? ''),
        (cost[(row - 1) * width + at] ?? 0) + ODD_COST,
        (cost[row * width + at - 1] ?? 0) + ODD_COST,
      );
  }
  const pieces: string[][] = said.map(() => []);
  let row = said.length;
  let at = heard.length;
  while (row > 0 || at > 0) {
    const here = cost[row * width + at] ?? 0;
    const phone = heard[at - 1] ?? '';
    const both = (cost[(row - 1) * width + at - 1] ?? 0) + costOf(said[row - 1] ?? '', phone);
    if (row > 0 && at > 0 && Math.abs(here - both) < 1e-9) {
      pieces[row - 1]?.unshift(phone);
      row -= 1;
      at -= 1;
    } else if (at > 0 && Math.abs(here - (cost[row * width + at - 1] ?? 0) - ODD_COST) < 1e-9) {
      pieces[Math.max(0, row - 1)]?.unshift(phone);
      at -= 1;
    } else row -= 1;
  }
  return { cost: cost[said.length * width + heard.length] ?? 0, pieces };
}

import { BLANK, OUTPUTS } from './phones';
import { scoresBefore, type Posteriors } from './posteriors';

/** Where the phones of a reply lie in the sound, by phone. */
export interface Aligned {
  /** The row at which it is clearest. */
  rows: number[];
  /** How likely the head finds it there, as a natural logarithm. */
  sure: number[];
}

const NOTHING = -Infinity;

/** Lays phones where together they fit best; they must fit in, as those of a decoded path do. */
export function aligned(posteriors: Posteriors, phones: number[]): Aligned {
  const { log, frames } = posteriors;
  const before = scoresBefore(posteriors);
  // Place 2k + 1 is phone k, place 2k + 2 the blank after it; place 0 all before.
  const places = 2 * phones.length + 1;
  const steps = new Uint8Array(frames * places);
  let scores = new Float64Array(places).fill(NOTHING);
  let next = new Float64Array(places);
  scores[0] = 0;
  for (let row = 0; row < frames; row += 1) {
    next[0] = before[row + 1] as number;
    for (let place = 1; place < places; place += 1) {
      const most = place % 2 === 0 || place < 3 || phoneAt(place) === phoneAt(place - 2) ? 1 : 2;
      let step = 0;
      for (let back = 1; back <= most; back += 1)
        if ((scores[place - back] as number) > (scores[place - step] as number)) step = back;
      steps[row * places + place] = step;
      const output = place % 2 === 0 ? BLANK : phoneAt(place);
      next[place] = (scores[place - step] as number) + (log[row * OUTPUTS + output] as number);
    }
    [scores, next] = [next, scores];
  }
  const [afterPhone = NOTHING, afterBlank = NOTHING] = scores.slice(-2);
  const rows = phones.map(() => 0);
  const sure = phones.map(() => NOTHING);
  let place = afterPhone > afterBlank ? places - 2 : places - 1;
  for (let row = frames - 1; row >= 0 && place > 0; row -= 1) {
    if (place % 2 === 1) {
      const phone = (place - 1) / 2;
      const likely = log[row * OUTPUTS + phoneAt(place)] as number;
      if (likely >= (sure[phone] as number)) {
        sure[phone] = likely;
        rows[phone] = row;
      }
    }
    place -= steps[row * places + place] as number;
  }
  return { rows, sure };

  function phoneAt(place: number): number {
    return phones[(place - 1) / 2] as number;
  }
}

/** How even beats are that should come every second. */
export interface Evenness {
  beats: number;
  /** Beats that should have come and did not. */
  lost: number;
  /** The most that any beat is off its time, against the middle of all, milliseconds. */
  worstMilliseconds: number;
  /** How much faster or slower than a second a beat they come in all, percent. */
  driftPercent: number;
}

/**
 * Holds the beginnings of beats (seconds, in order) against a beat a second, `expected` of them.
 *
 * @throws Error where there are fewer than three: nothing can be told of their evenness.
 */
export function evennessOf(begun: number[], expected: number): Evenness {
  const [first, last] = [begun[0], begun.at(-1)];
  if (first === undefined || last === undefined || begun.length < 3)
    throw new Error(`${begun.length} beats were heard of ${expected}.`);
  const seconds = placesOf(begun, expected);
  const off = begun.map((at, index) => at - first - (seconds[index] ?? 0));
  const middle = off.toSorted((a, b) => a - b)[Math.floor(off.length / 2)] ?? 0;
  const worst = Math.max(...off.map((each) => Math.abs(each - middle)));
  const span = (seconds.at(-1) ?? 1) - (seconds[0] ?? 0);
  const rounded = (value: number, digits: number) => Number(value.toFixed(digits));
  return {
    beats: begun.length,
    lost: Math.max(0, expected - begun.length),
    worstMilliseconds: rounded(worst * 1000, 2),
    driftPercent: rounded(((last - first) / span - 1) * 100, 4),
  };
}

/**
 * Which of the expected beats each is. Where none was lost, they are in their order, however late
 * one came or how far all have drifted; a rounded time would take a beat that is late by more than
 * half a second for the next. Where some were lost, the gaps tell which: the whole row is laid so
 * that they differ from whole seconds by as little as can be, and ends no later than expected.
 */
function placesOf(begun: readonly number[], expected: number): number[] {
  const lost = expected - begun.length;
  if (lost <= 0) return begun.map((_, index) => index);
  // `costs[skipped]`: the least that the beats up to here differ, with so many lost before them.
  let costs = Array.from({ length: lost + 1 }, () => 0);
  const from: number[][] = [];
  begun.slice(1).forEach((at, index) => {
    const gap = at - (begun[index] ?? 0);
    const best = costs.map(() => 0);
    costs = costs.map((_, skipped) => {
      let least = Infinity;
      for (let before = skipped; before >= 0; before -= 1) {
        const cost = (costs[before] ?? Infinity) + Math.abs(gap - 1 - (skipped - before));
        if (cost >= least) continue;
        least = cost;
        best[skipped] = before;
      }
      return least;
    });
    from.push(best);
  });
  let skipped = costs.indexOf(Math.min(...costs));
  const places = [begun.length - 1 + skipped];
  for (let index = from.length - 1; index >= 0; index -= 1) {
    skipped = from[index]?.[skipped] ?? 0;
    places.unshift(index + skipped);
  }
  return places;
}

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
  const seconds = begun.map((at) => Math.round(at - first));
  const off = begun.map((at, index) => at - first - (seconds[index] ?? 0));
  const middle = off.toSorted((a, b) => a - b)[Math.floor(off.length / 2)] ?? 0;
  const worst = Math.max(...off.map((each) => Math.abs(each - middle)));
  const span = seconds.at(-1) ?? 1;
  const rounded = (value: number, digits: number) => Number(value.toFixed(digits));
  return {
    beats: begun.length,
    lost: Math.max(0, expected - begun.length),
    worstMilliseconds: rounded(worst * 1000, 2),
    driftPercent: rounded(((last - first) / span - 1) * 100, 4),
  };
}

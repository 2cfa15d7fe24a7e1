import { FIGURES, valueOf } from './figures';

/** Up to so many, a count says more than a percentage (common practice, no source). */
const COUNTS_UP_TO = 10;

export interface Proportion {
  count: number;
  total: number;
  /** Wilson's 95 % interval of the share, 0 to 1. */
  from: number;
  to: number;
  /** In percent, to be shown; null where ten or fewer ask for counts ("3 of 8"). */
  percent: number | null;
}

/**
 * How many of how many, with Wilson's 95 % interval (Wilson 1927, Newcombe 1998). Throws
 * RangeError for anything but whole counts, or more than there are.
 *
 * @example proportionOf(81, 263) // 0.2553 to 0.3662
 */
export function proportionOf(count: number, total: number): Proportion {
  const areCounts = [count, total].every((each) => Number.isInteger(each) && each >= 0);
  if (!areCounts || total === 0 || count > total) {
    throw new RangeError(
      `${count} of ${total} is no proportion: give whole counts, at least 1 in all, and no more than all.`,
    );
  }
  const z = valueOf(FIGURES.wilsonZ);
  const share = count / total;
  const scale = 1 + z ** 2 / total;
  const middle = (share + z ** 2 / (2 * total)) / scale;
  const reach = (z * Math.sqrt((share * (1 - share)) / total + z ** 2 / (4 * total ** 2))) / scale;
  return {
    count,
    total,
    // At the ends the interval closes, which rounding would miss by a hair.
    from: count === 0 ? 0 : middle - reach,
    to: count === total ? 1 : middle + reach,
    percent: total <= COUNTS_UP_TO ? null : share * 100,
  };
}

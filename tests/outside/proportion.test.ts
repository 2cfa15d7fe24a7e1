import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { FIGURES } from '../../src/domain/measuring/figures';
import { proportionOf } from '../../src/domain/measuring/proportion';

describe("Wilson's interval", () => {
  // Newcombe 1998, Table I, method 3 (score, no continuity correction).
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
  ])('%d of %d is %d to %d (Newcombe 1998)', (count, total, from, to) => {
    const interval = proportionOf(count, total);
    expect(interval.from).toBeCloseTo(from, 4);
    expect(interval.to).toBeCloseTo(to, 4);
  });

  it('takes the z that jstat gives for 95 %', () => {
    expect(FIGURES.wilsonZ.value).toBeCloseTo(jstat.normal.inv(0.975, 0, 1), 6);
  });

  it('ends where a score test at 5 % just no longer refuses the share (jstat)', () => {
    for (const [count, total] of [
      [81, 263],
      [15, 148],
      [3, 8],
      [1, 29],
    ] as const) {
      const { from, to } = proportionOf(count, total);
      for (const share of [from, to]) {
        const z = (count / total - share) / Math.sqrt((share * (1 - share)) / total);
        const chance = 2 * (1 - jstat.normal.cdf(Math.abs(z), 0, 1));
        expect(chance, `${count} of ${total} at ${share}`).toBeCloseTo(0.05, 5);
      }
    }
  });
});

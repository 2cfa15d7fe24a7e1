import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { blockHeight } from '../../src/domain/measuring/blockHeight';
import { FIGURES } from '../../src/domain/measuring/figures';
import { kneeHeight } from '../../src/domain/measuring/kneeHeight';

const kneeOf = (statureMillimetres: number) =>
  kneeHeight({ statureMillimetres, ageYears: 30 }).millimetres;

/** Rows of ANSUR II (2012 US Army anthropometric survey, public data): stature and knee, mm. */
const ROWS = [
  ['men', 1776, 502],
  ['men', 1702, 490],
  ['men', 1735, 496],
  ['women', 1560, 435],
  ['women', 1665, 483],
  ['women', 1711, 470],
] as const;

describe('knee height against published rows', () => {
  // The regression over all 6068 people has a standard error of 15.1 mm; a single person is
  // expected within two of them.
  it.each(ROWS)('a row of the %s: %i mm tall has a knee at %i mm', (_, stature, knee) => {
    const { errorMillimetres } = kneeHeight({ statureMillimetres: stature, ageYears: 30 });
    expect(errorMillimetres).toBe(15.1);
    expect(Math.abs(kneeOf(stature) - knee)).toBeLessThanOrEqual(2 * errorMillimetres);
  });

  it('runs as the line that jstat fits through those rows, within its error at each of them', () => {
    // Six rows are few, so the lines are compared where the rows are, not by their slopes.
    const statures = ROWS.map(([, stature]) => stature);
    const knees = ROWS.map(([, , knee]) => knee);
    const {
      coef: [intercept = NaN, slope = NaN],
    } = jstat.models.ols(
      knees,
      statures.map((stature) => [1, stature]),
    );
    for (const stature of statures) {
      const off = Math.abs(intercept + slope * stature - kneeOf(stature));
      expect(off, `${stature} mm`).toBeLessThan(FIGURES.kneeErrorMillimetres.value);
    }
  });

  it('does not read high as 0.285 of stature does (Drillis and Contini 1966: 13 mm on average)', () => {
    const meanOff =
      ROWS.reduce((sum, [, stature]) => sum + 0.285 * stature - kneeOf(stature), 0) / ROWS.length;
    expect(meanOff).toBeGreaterThan(10);
    expect(meanOff).toBeLessThan(16);
  });

  it('175 cm barefoot with a competition bell of 280 mm (secondary source) needs 207 mm', () => {
    expect(Math.round(kneeOf(1750))).toBe(487);
    const { neededMillimetres } = blockHeight({
      knee: { statureMillimetres: 1750, ageYears: 30 },
    });
    expect(Math.round(neededMillimetres)).toBe(207);
  });
});

import { describe, expect, it } from 'vitest';
import {
  KNEE_ERROR_MILLIMETRES,
  blockHeight,
  kneeHeightMillimetres,
} from '../../src/domain/measuring/blockHeight';

const adult = (statureCentimetres: number) => ({ statureCentimetres, ageYears: 30 });

describe('knee height against published rows', () => {
  // Rows of ANSUR II (2012 US Army anthropometric survey, public data): stature and knee height
  // (mid-patella), millimetres. The regression over all 6068 people has an SEE of 15.1 mm; a
  // single person is expected within two of them.
  it.each([
    ['men', 1776, 502],
    ['men', 1702, 490],
    ['men', 1735, 496],
    ['women', 1560, 435],
    ['women', 1665, 483],
    ['women', 1711, 470],
  ])('a row of the %s: %i mm tall has a knee at %i mm', (_, stature, knee) => {
    const off = Math.abs(kneeHeightMillimetres(adult(stature / 10)) - knee);
    expect(off).toBeLessThanOrEqual(2 * KNEE_ERROR_MILLIMETRES);
  });

  it('does not read high as 0.285 of stature does (Drillis and Contini 1966: 13 mm on average)', () => {
    const rows = [1776, 1702, 1735, 1560, 1665, 1711];
    const meanOff =
      rows.reduce((sum, mm) => sum + 0.285 * mm - kneeHeightMillimetres(adult(mm / 10)), 0) /
      rows.length;
    expect(meanOff).toBeGreaterThan(10);
    expect(meanOff).toBeLessThan(18);
  });

  it('175 cm barefoot with a competition bell of 280 mm needs 207 mm', () => {
    expect(Math.round(kneeHeightMillimetres(adult(175)))).toBe(487);
    expect(Math.round(blockHeight({ knee: adult(175) }).neededMillimetres)).toBe(207);
  });
});

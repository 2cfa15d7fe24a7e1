import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { FIGURES } from '../../src/domain/measuring/figures';
import {
  minimalDetectableChange,
  standardError,
} from '../../src/domain/measuring/measurementError';

describe('the error of measurement against Weir 2005', () => {
  it('SD 10 and ICC .90 give an SEM of 3.162, an MDC90 of 7.356 and an MDC95 of 8.765', () => {
    const error = standardError(10, 0.9);
    expect(error).toBeCloseTo(3.162, 3);
    expect(minimalDetectableChange(error, 90)).toBeCloseTo(7.356, 3);
    expect(minimalDetectableChange(error, 95)).toBeCloseTo(8.765, 3);
  });

  it('its z are those of the normal distribution, to the digits given (jstat)', () => {
    expect(FIGURES.z90.value).toBeCloseTo(jstat.normal.inv(0.95, 0, 1), 4);
    expect(FIGURES.z95.value).toBeCloseTo(jstat.normal.inv(0.975, 0, 1), 2);
  });
});

describe('the error of an angle overhead', () => {
  it('passive, by inclinometer: SEM 12.3 gives an MDC95 of 34.1 (Dougherty 2015)', () => {
    const change = minimalDetectableChange(12.3, 95);
    expect(change).toBeCloseTo(34.1, 1);
    expect(FIGURES.inclinometerPassiveMdc95Degrees.value).toBe(Math.round(change));
  });

  it('by eye: SEM 11 to 25 gives 30 and more (Hayes 2001)', () => {
    const least = minimalDetectableChange(11, 95);
    expect(FIGURES.byEyeMdc95Degrees.value).toBe(Math.round(least));
    expect(minimalDetectableChange(25, 95)).toBeGreaterThan(2 * least);
  });

  it('a difference is called only above the MDC90 of 8 degrees (Kolber 2011)', () => {
    const active = FIGURES.inclinometerActiveMdc90Degrees.value;
    expect(active).toBe(8);
    expect(FIGURES.sideCalledDegrees.value).toBeGreaterThan(active);
  });
});

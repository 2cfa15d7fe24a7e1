import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { EXHALE_SECONDS } from '../../src/domain/pacing/line';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import { FIGURES } from '../../src/domain/measuring/figures';
import { listeningHours } from '../../src/domain/measuring/listeningHours';
import { nextLoad } from '../../src/domain/measuring/loadStep';
import { normBand } from '../../src/domain/measuring/norms';

describe('the next load (ACSM 2009: 2 to 10 %)', () => {
  const next = (loadKilograms: number) =>
    nextLoad({ loadKilograms, stepsKilograms: [2.5], repsOverTarget: 1 });

  it('40 kg with plates of 2.5 kg: 42.5 kg', () => {
    expect(next(40)).toEqual({ do: 'add-load', loadKilograms: 42.5 });
  });

  it('20 kg with plates of 2.5 kg: none fits, so repetitions', () => {
    expect(next(20)).toEqual({ do: 'add-reps' });
  });
});

describe('listening hours a week (WHO-ITU H.870: 80 dB for 40 h, 75 for children)', () => {
  it.each([
    [80, false, 40],
    [92, false, 2.5],
    [95, false, 1.25],
    [75, true, 40],
  ])('%d dB(A), children %s: %d hours', (decibels, forChildren, hours) => {
    expect(listeningHours(decibels, forChildren)).toBeCloseTo(hours, 10);
  });
});

describe('active shoulder flexion (Vairo 2012, Table 4)', () => {
  it.each([
    ['male', 153, 165, 179],
    ['female', 155, 168, 180],
  ] as const)('%s: p5 %d, p50 %d, p95 %d', (sex, p5, p50, p95) => {
    const band = (degrees: number) =>
      normBand('overhead-active-standing', 'goniometer', sex, degrees);
    expect([p5 - 1, p5].map((degrees) => band(degrees)?.from)).toEqual([null, 'p5']);
    expect([p50 - 1, p50].map((degrees) => band(degrees)?.from)).toEqual(['p5', 'p50']);
    expect([p95 - 1, p95].map((degrees) => band(degrees)?.from)).toEqual(['p50', 'p95']);
  });

  it('the usual pass line lies at the fifth to tenth percentile of a normal through them (jstat)', () => {
    for (const [p5, p50, p95] of [
      [153, 165, 179],
      [155, 168, 180],
    ] as const) {
      const deviation = (p95 - p5) / (2 * FIGURES.z90.value);
      const share = jstat.normal.cdf(DEFAULT_SETTINGS.passLineDegrees, p50, deviation);
      expect(share).toBeGreaterThan(0.04);
      expect(share).toBeLessThan(0.11);
    }
  });

  it('a pass line of 180 would fail over 95 % of young men', () => {
    expect(FIGURES.flexionP95MaleDegrees.value).toBeLessThan(180);
  });
});

it('six breaths a minute with an in/out ratio of 0.42 to 0.8 breathe out for 5.6 to 7.0 s (Van Diest 2014, Laborde 2021)', () => {
  const [longest, shortest] = [0.42, 0.8].map((ratio) => 60 / 6 / (1 + ratio));
  expect(shortest).toBeCloseTo(5.6, 1);
  expect(longest).toBeCloseTo(7.0, 1);
  expect(EXHALE_SECONDS.least).toBeLessThanOrEqual(shortest!);
  expect(EXHALE_SECONDS.most).toBeGreaterThanOrEqual(longest!);
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { listeningHours } from '../../../src/domain/measuring/listeningHours';
import { nextLoad } from '../../../src/domain/measuring/loadStep';
import {
  minimalDetectableChange,
  standardError,
} from '../../../src/domain/measuring/measurementError';
import { proportionOf } from '../../../src/domain/measuring/proportion';

describe('a proportion', () => {
  it('lies in its interval, which lies in 0 to 1 and narrows with more', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), fc.nat(500), (total, some) => {
        const count = Math.min(some, total);
        const { from, to } = proportionOf(count, total);
        expect(from).toBeGreaterThanOrEqual(0);
        expect(from).toBeLessThanOrEqual(count / total);
        expect(to).toBeGreaterThanOrEqual(count / total);
        expect(to).toBeLessThanOrEqual(1);
        const more = proportionOf(count * 4, total * 4);
        expect(more.to - more.from).toBeLessThan(to - from);
      }),
    );
  });

  it('of ten or fewer is shown as counts, of more in percent', () => {
    expect(proportionOf(3, 10).percent).toBeNull();
    expect(proportionOf(3, 12).percent).toBe(25);
    expect(proportionOf(0, 11).percent).toBe(0);
  });

  it.each([
    [1, 0],
    [0, 0],
    [5, 4],
    [-1, 4],
    [1.5, 4],
    [1, NaN],
  ])('%d of %d is refused', (count, total) => {
    expect(() => proportionOf(count, total)).toThrow(/is no proportion/);
  });
});

describe('the next load', () => {
  const next = (loadKilograms: number, stepsKilograms: number[], repsOverTarget = 1) =>
    nextLoad({ loadKilograms, stepsKilograms, repsOverTarget });

  it('stays until a repetition more than the target is there', () => {
    expect(next(40, [2.5], 0)).toEqual({ do: 'stay' });
    expect(next(40, [2.5], 2)).toEqual({ do: 'add-load', loadKilograms: 42.5 });
  });

  it('takes the smallest step that fits, more than one where one is too little', () => {
    expect(next(100, [10, 5, 2.5])).toEqual({ do: 'add-load', loadKilograms: 102.5 });
    expect(next(100, [1, 5])).toEqual({ do: 'add-load', loadKilograms: 102 });
    expect(next(200, [2.5])).toEqual({ do: 'add-load', loadKilograms: 205 });
  });

  it('exactly 2 and exactly 10 percent fit', () => {
    expect(next(20, [2])).toEqual({ do: 'add-load', loadKilograms: 22 });
    expect(next(50, [1])).toEqual({ do: 'add-load', loadKilograms: 51 });
    expect(next(20, [2.01])).toEqual({ do: 'add-reps' });
  });

  it('adds repetitions where no step is at hand', () => {
    expect(next(40, [])).toEqual({ do: 'add-reps' });
  });

  it('is 2 to 10 percent more, whatever steps are at hand', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 600 }),
        fc.array(fc.integer({ min: 1, max: 40 }), { maxLength: 5 }),
        (halves, quarters) => {
          const load = halves / 2;
          const step = next(
            load,
            quarters.map((quarter) => quarter / 4),
          );
          if (step.do !== 'add-load') return;
          expect(step.loadKilograms / load).toBeGreaterThan(1.0199);
          expect(step.loadKilograms / load).toBeLessThan(1.1001);
        },
      ),
    );
  });

  it('refuses what is no load', () => {
    expect(() => next(0, [2.5])).toThrow(/0 kg is no load/);
    expect(() => next(40, [-2.5])).toThrow(/-2.5 kg is no load/);
    expect(() => next(NaN, [])).toThrow(/no load/);
    expect(() => next(40, [2.5], NaN)).toThrow(/repetitions/);
  });
});

describe('the error of measurement', () => {
  it('is none where reliability is perfect, and grows with the spread', () => {
    expect(standardError(10, 1)).toBe(0);
    expect(standardError(10, 0)).toBe(10);
    expect(minimalDetectableChange(4, 95)).toBeGreaterThan(minimalDetectableChange(4, 90));
  });

  it('refuses what cannot be', () => {
    expect(() => standardError(-1, 0.9)).toThrow(/standard deviation/);
    expect(() => standardError(10, 1.1)).toThrow(/0 to 1/);
    expect(() => standardError(10, NaN)).toThrow(/0 to 1/);
    expect(() => minimalDetectableChange(-1, 90)).toThrow(/standard error/);
  });
});

it('a level that is no number has no listening time', () => {
  expect(() => listeningHours(NaN)).toThrow(/no level/);
});

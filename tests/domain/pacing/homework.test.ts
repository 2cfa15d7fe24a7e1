import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { secondsIn } from '../../../src/cli/durations';
import { bookOf } from '../../../src/cli/verb';
import type { Side } from '../../../src/domain/areas';
import type { Step } from '../../../src/domain/deciding/step';
import { WORDS } from '../../../src/domain/log';
import { REST_SECONDS } from '../../../src/domain/pacing/oneStep';
import { planHomework, planStep } from '../../../src/domain/pacing/planning';

const books = ['en', 'es'].map((language) => bookOf(language));
const drills = books.flatMap((book) =>
  Object.values(book.drills).map((drill) => ({ book, drill })),
);

/** Any set of any drill, as homework or not. */
const sets = fc.constantFrom(...drills).chain(({ book, drill }) =>
  fc.record({
    book: fc.constant(book),
    drill: fc.constant(drill),
    set: fc.integer({ min: 1, max: drill.dose.sets }),
    side: fc.constantFrom<Side | null>(...(drill.sided ? (['left', 'right'] as const) : [null])),
    isHomework: fc.boolean(),
    words: fc.constantFrom(...WORDS),
    isStretched: fc.boolean(),
  }),
);

describe('the time of a set of homework, for any drill', () => {
  it('15.2 has one rest before each later set, once for both sides, and nothing overlaps', () => {
    fc.assert(
      fc.property(sets, ({ book, drill, set, side, isHomework, words, isStretched }) => {
        const step: Extract<Step, { do: 'set' }> = {
          ...{ do: 'set', prompt: `set/${drill.id}`, area: drill.area, drill: drill.id, side },
          ...{ rung: 1, set, of: drill.dose.sets, load: 'as-written', fix: null },
          ...{ sayGood: false, lookFirst: false, restored: false },
          ...(isHomework && { homework: true as const }),
        };
        const seconds = secondsIn(book.language);
        const secondsOf = (text: string) => seconds(text) * (isStretched ? 1.3 : 1);
        const known = set === 1 && side !== 'right' ? 'new' : 'on';
        const lines = planStep(book, step, secondsOf, { known, words });
        let end = 0;
        for (const line of lines) {
          expect(line.atSeconds).toBeCloseTo(end, 2);
          expect(line.seconds).toBeGreaterThan(0);
          for (const beat of line.beats) expect(beat.atSeconds).toBeLessThan(line.seconds);
          end = line.atSeconds + line.seconds;
        }
        const rests = lines.filter(
          ({ phase, text }) => phase === 'resting' && text?.match(/^(Rest|Descansa)\./),
        );
        const isDue = isHomework && set > 1 && side !== 'right';
        expect(rests.map((rest) => rest.seconds)).toEqual(
          isDue ? [REST_SECONDS[drill.loaded ? 'loaded' : 'unloaded']] : [],
        );
        // What is said of the rest is over before the rest is.
        for (const rest of rests) expect(secondsOf(rest.text ?? '')).toBeLessThan(rest.seconds);
        if (isDue) expect(lines[0]).toBe(rests[0]);
      }),
      { numRuns: 300 },
    );
  });

  it('15.2, 15.12 a plan has every set of each dose on each side, and each morning first', () => {
    fc.assert(
      fc.property(fc.constantFrom(...drills), fc.boolean(), ({ book, drill }, isLater) => {
        const { id, area, sided, dose, loaded } = drill;
        const done = { drill: id, rung: 1, load: 'as-written' } as const;
        const before = isLater ? { ...done, daysAgo: 1 } : null;
        const task = { ...done, area, why: 'same', may: [id], before } as const;
        const steps = planHomework(
          book,
          { tasks: [{ ...task, may: [id] }] },
          secondsIn(book.language),
        );
        const sides = sided ? 2 : 1;
        expect(steps).toHaveLength(dose.sets * sides + (isLater ? 1 : 0));
        if (isLater) expect(steps[0]?.step).toBe(`morning after, ${area}`);
        const least = (dose.sets - 1) * REST_SECONDS[loaded ? 'loaded' : 'unloaded'];
        expect(steps.reduce((sum, { seconds }) => sum + seconds, 0)).toBeGreaterThan(least);
      }),
      { numRuns: 80 },
    );
  });
});

import fc from 'fast-check';
import type { CueBook } from '../../../src/domain/script';
import {
  CHANGE_SECONDS,
  LEAST_BREATHS,
  WORK_SECONDS,
  type WarmUp,
  type WarmUpPart,
} from '../../../src/domain/warmUp/warmUp';

/** Any warm-up that the scripts may hold. */
export function anyWarmUp(book: CueBook): fc.Arbitrary<WarmUp> {
  const drill = fc.constantFrom(...Object.keys(book.drills));
  const work = fc.integer({ min: WORK_SECONDS.least, max: WORK_SECONDS.most });
  const change = fc.integer({ min: CHANGE_SECONDS.least, max: CHANGE_SECONDS.most });
  const demo = fc.constantFrom(
    'Watch once.',
    'Hips behind you until they touch it, then stand tall.',
  );
  const together: fc.Arbitrary<WarmUpPart> = fc.record({
    arrangement: fc.constant('together' as const),
    rounds: fc.integer({ min: 1, max: 3 }),
    blocks: fc.array(
      fc.oneof(
        fc.record({
          do: fc.constant('work' as const),
          drill,
          demo,
          workSeconds: work,
          changeSeconds: change,
        }),
        fc.record({
          do: fc.constant('breathe' as const),
          name: fc.constant('long breaths out'),
          demo,
          breaths: fc.integer({ min: LEAST_BREATHS, max: 6 }),
          exhaleSeconds: fc.integer({ min: 4, max: 8 }),
          changeSeconds: change,
        }),
      ),
      { minLength: 1, maxLength: 5 },
    ),
  });
  const stations: fc.Arbitrary<WarmUpPart> = fc.record({
    arrangement: fc.constant('stations' as const),
    rounds: fc.integer({ min: 1, max: 2 }),
    stations: fc.array(fc.record({ drill, demo }), { minLength: 2, maxLength: 6 }),
    workSeconds: work,
    changeSeconds: change,
  });
  return fc.record({
    id: fc.constant('any'),
    name: fc.constant('any warm-up'),
    parts: fc.array(fc.oneof(together, stations), { minLength: 1, maxLength: 3 }),
  });
}

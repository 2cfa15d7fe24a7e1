import type { Area, AreaOutcome } from '../areas';
import { LIFTS } from '../deciding/deciding';
import type { AreaState } from '../deciding/step';
import { say } from '../saying';
import type { CueBook } from '../script';
import { areaName, liftName, titled, workingAt } from './wording';

/** A family of lifts that may not be taught yet, with every area that keeps it back. */
export interface LiftMissing {
  lift: string;
  /** `not-tested`: the area was no part of this session. Empty: somebody must decide first. */
  missing: { area: Area; outcome: AreaOutcome | 'not-tested'; rung: number | null }[];
  /** As it is shown: "Cleans: missing squat (working at the goblet squat)." */
  sentence: string;
}

/** Every family that is not in `ready`, in the usual order. */
export function liftsMissing(
  book: CueBook,
  states: readonly AreaState[],
  ready: readonly string[],
): LiftMissing[] {
  return Object.entries(LIFTS)
    .filter(([lift]) => !ready.includes(lift))
    .map(([lift, areas]) => {
      const missing = areas.flatMap((area) => {
        const state = states.find((one) => one.area === area);
        if (state?.outcome === 'ready') return [];
        const { outcome = 'not-tested' as const, rung = null } = state ?? {};
        return [{ area, outcome, rung, state }];
      });
      const what = missing.map(({ area, outcome, state }) => {
        const how =
          state?.outcome === 'working'
            ? workingAt(book, state)
            : say(book.lines, `shown.missing-${outcome}`, {});
        return say(book.lines, 'shown.missing-area', { area: areaName(book, area), how });
      });
      const name = titled(liftName(book, lift));
      const sentence =
        what.length === 0
          ? say(book.lines, 'shown.lift-waits', { lift: name })
          : say(book.lines, 'shown.lift-missing', { lift: name, what: what.join(', ') });
      return {
        lift,
        missing: missing.map(({ area, outcome, rung }) => ({ area, outcome, rung })),
        sentence,
      };
    });
}

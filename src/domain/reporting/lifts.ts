import type { Area, AreaOutcome } from '../areas';
import { LIFTS, liftsReady } from '../deciding/deciding';
import type { AreaState } from '../deciding/step';
import { say } from '../saying';
import type { CueBook } from '../script';
import type { WhoLooks } from './barred';
import { areaName, liftName, titled, workingAt } from './wording';

/** A family of lifts that may not be taught yet, with every area that keeps it back. */
export interface LiftMissing {
  lift: string;
  /** `not-tested`: the area was no part of this session. Empty: somebody must decide first. */
  missing: {
    area: Area;
    outcome: AreaOutcome | 'not-tested';
    rung: number | null;
    /** Pain barred load in it, so that it keeps lifts back even where it is ready. */
    barredByPain?: true;
  }[];
  /** As it is shown: "Cleans: missing squat (working at the goblet squat)." */
  sentence: string;
}

/** How an area stands, and who looks at its pain before anything loaded is done in it. */
export interface AreaLooked extends AreaState {
  looks: WhoLooks;
}

/** Rules 12.7 and 12.12: the families of which every area is ready and bars no load. */
export const liftsThatMay = (states: readonly AreaLooked[]): string[] =>
  liftsReady(states.filter(({ looks }) => looks === null));

/** Every family that is not in `ready`, in the usual order. */
export function liftsMissing(
  book: CueBook,
  states: readonly AreaLooked[],
  ready: readonly string[],
): LiftMissing[] {
  return Object.entries(LIFTS)
    .filter(([lift]) => !ready.includes(lift))
    .map(([lift, areas]) => {
      const missing = areas.flatMap((area) => {
        const state = states.find((one) => one.area === area);
        const { outcome = 'not-tested' as const, rung = null, looks = null } = state ?? {};
        if (outcome === 'ready' && looks === null) return [];
        return [{ area, outcome, rung, looks, state }];
      });
      const what = missing.map(({ area, outcome, state }) =>
        say(book.lines, 'shown.missing-area', {
          area: areaName(book, area),
          how: howMissing(book, outcome, state),
        }),
      );
      const name = titled(liftName(book, lift));
      const sentence =
        what.length === 0
          ? say(book.lines, 'shown.lift-waits', { lift: name })
          : say(book.lines, 'shown.lift-missing', { lift: name, what: what.join(', ') });
      return {
        lift,
        missing: missing.map(({ area, outcome, rung, looks }) => ({
          area,
          outcome,
          rung,
          ...(looks === null || outcome === 'referred' ? {} : { barredByPain: true as const }),
        })),
        sentence,
      };
    });
}

function howMissing(
  book: CueBook,
  outcome: AreaOutcome | 'not-tested',
  state: AreaLooked | undefined,
): string {
  const isToldByPain = outcome === 'ready' || state?.looks === 'professional';
  if (state !== undefined && state.looks !== null && isToldByPain && outcome !== 'referred') {
    return say(book.lines, `shown.missing-after-pain-${state.looks}`, {});
  }
  return state?.outcome === 'working'
    ? workingAt(book, state)
    : say(book.lines, `shown.missing-${outcome}`, {});
}

import type { Area, AreaOutcome, Side } from '../areas';
import { areaStates, findingsOf } from '../deciding/deciding';
import { courseOf } from '../deciding/walking';
import type { Entry } from '../log';
import type { CheckId, CueBook } from '../script';
import { checkReports, type CheckReport } from './areaReport';
import { angleOf, changeOf, type AngleChange } from './measured';
import { changeTold, type AngleTold } from './measuredWords';
import { say } from '../saying';

/** How an area stood at the visit before and at this one; null where it was no part of one. */
export interface AreaSince {
  area: Area;
  before: AreaOutcome | null;
  now: AreaOutcome | null;
  /** Last rung held; 0 is below rung 1; null where no ladder was climbed. */
  rungBefore: number | null;
  rungNow: number | null;
}

/** One side of a check that both visits have. */
export interface CheckSince {
  area: Area;
  check: CheckId;
  side: Side | null;
  /** What stood at the end of each visit. */
  before: CheckReport['stands'];
  now: CheckReport['stands'];
  /** Of the angles at first, before any drill; null unless both visits have one. */
  change: AngleChange | null;
  /** The change in words; null without one. */
  told: AngleTold | null;
}

export interface SinceLastVisit {
  areas: AreaSince[];
  checks: CheckSince[];
}

/**
 * Two sessions of the same person side by side (rule 12.18): areas by their outcome, and each side
 * of a check with the change of its angle. The angles are those at first, since a retest comes
 * after drills and is another thing to measure. `before` is the earlier log. Throws where a log has
 * no start or its routine is not in the book.
 */
export function sinceLastVisit(
  book: CueBook,
  before: readonly Entry[],
  now: readonly Entry[],
): SinceLastVisit {
  const [then, today] = [visitOf(book, before), visitOf(book, now)];
  const areas = [...new Set([...then.states, ...today.states].map(({ area }) => area))];
  return {
    areas: areas.map((area) => {
      const [was, is] = [then, today].map(({ states }) => states.find((one) => one.area === area));
      return {
        area,
        before: was?.outcome ?? null,
        now: is?.outcome ?? null,
        rungBefore: was?.rung ?? null,
        rungNow: is?.rung ?? null,
      };
    }),
    checks: today.checks.flatMap((is) => {
      const was = then.checks.find((one) => one.check === is.check && one.side === is.side);
      return was === undefined ? [] : [checkSince(book, was, is)];
    }),
  };
}

function visitOf(book: CueBook, entries: readonly Entry[]) {
  const course = courseOf(book, entries);
  const findings = findingsOf(entries);
  return {
    states: areaStates(book, entries),
    checks: [...course.areas.values()].flatMap((at) => checkReports(course, at, findings)),
  };
}

function checkSince(book: CueBook, was: CheckReport, is: CheckReport): CheckSince {
  const { area, check, side } = is;
  const [before, now] = [angleOf(was.first), angleOf(is.first)];
  const pair = { area, check, side, before: was.stands, now: is.stands };
  if (before === null || now === null) return { ...pair, change: null, told: null };
  const change = changeOf(check, before, now);
  const who = say(book.lines, `shown.angle-of-${side ?? 'none'}`, {});
  return {
    ...pair,
    change,
    told: changeTold(book, 'angle-since', { who, before, now, change }),
  };
}

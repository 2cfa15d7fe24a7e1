/** What became of one area: its outcome, the pattern of what failed, and every reason for it. */
import type { Area, Side } from '../areas';
import type { AngleTool, PainKind, Result } from '../findings';
import type { FaultId } from '../faults';
import { slotsOf, trialOf } from '../deciding/checking';
import {
  areaAtHand,
  isThere,
  mayLoad,
  type AreaCourse,
  type Course,
  type Round,
  type Slot,
} from '../deciding/course';
import { findingHurts } from '../deciding/hurting';
import type { FindingTold } from '../deciding/reading';
import type { CheckId, CheckScript } from '../script';

/** What was said in the end of one side of a check. */
export interface Given {
  result: Result;
  faults: FaultId[];
  /** Degrees, 20 to 200, or null. */
  angleDegrees: number | null;
  tool: AngleTool | null;
  /** 0 to 10, or null where no number was said. */
  pain: number | null;
  painKind: PainKind | 'unanswered' | null;
  /** 1 to 3. */
  tries: number;
}

/**
 * Why a check was not tested: `pain` and `unloaded-failed` are rules, the rest is the day. `passed-by`:
 * the session had gone on by a finding that was corrected since.
 */
export type NotTestedWhy =
  'pain' | 'coach' | 'unloaded-failed' | 'alone' | 'equipment' | 'time' | 'passed-by' | 'ended';

/** One side of a check (side null where it has none), at first and when it was tested again. */
export interface CheckReport {
  area: Area;
  check: CheckId;
  side: Side | null;
  first: Given | null;
  retest: Given | null;
  /** What stands: the retest where there was one. */
  stands: 'held' | 'failed' | 'not-tested';
  /** It failed, and no other side of this check is worse. */
  isWorstSide: boolean;
  notTested: NotTestedWhy | null;
  /** It failed and was not tested again, though its ladder was begun. */
  notRetested: NotTestedWhy | null;
}

/**
 * How an area failed. `range-short`: position kept; `position-given-up`: range reached by it;
 * `only-under-bar`: every unloaded check held. `warning-sign`: the session ended on one.
 */
export type Pattern =
  | 'range-short'
  | 'position-given-up'
  | 'range-and-position'
  | 'only-under-bar'
  | 'pain'
  | 'warning-sign';

/** Every check of an area, side by side, in the order they are asked. */
export function checkReports(
  course: Course,
  at: AreaCourse,
  findings: readonly FindingTold[],
): CheckReport[] {
  const reports = at.all.flatMap((check) =>
    slotsOf(check).map((slot) => slotReport(course, at, check, slot, findings)),
  );
  return reports.map((report) => ({
    ...report,
    isWorstSide:
      report.stands === 'failed' &&
      !reports.some((other) => other.check === report.check && isWorse(other, report)),
  }));
}

const isFail = (given: Given | null): boolean =>
  given !== null && given.result !== 'held' && given.result !== 'not-tested';

/** What stands of one side: the retest, unless it was left out. */
export const standing = ({ first, retest }: Pick<CheckReport, 'first' | 'retest'>): Given | null =>
  retest !== null && retest.result !== 'not-tested' ? retest : first;

/** Pain is worse than any other fault; of two angles by one tool, the smaller is. */
function isWorse(one: CheckReport, other: CheckReport): boolean {
  const [mine, its] = [standing(one), standing(other)];
  if (mine === null || its === null || one.stands !== 'failed') return false;
  if ((mine.result === 'pain') !== (its.result === 'pain')) return mine.result === 'pain';
  if (mine.tool !== its.tool || mine.angleDegrees === null || its.angleDegrees === null)
    return false;
  return mine.angleDegrees < its.angleDegrees;
}

function slotReport(
  course: Course,
  at: AreaCourse,
  check: CheckScript,
  slot: Slot,
  findings: readonly FindingTold[],
): CheckReport {
  const wasClimbed = at.climb !== null;
  const hurt = hurtIn(course, at, slot, findings);
  const first = givenIn(at.checks, slot, findings) ?? (wasClimbed ? null : hurt);
  const retest = givenIn(at.retests, slot, findings) ?? (wasClimbed ? hurt : null);
  const last = standing({ first, retest });
  const stands =
    last === null || last.result === 'not-tested' ? 'not-tested' : isFail(last) ? 'failed' : 'held';
  const wasRetested = retest !== null && retest.result !== 'not-tested';
  const isMissing = stands === 'failed' && !wasRetested && at.climb !== null;
  return {
    area: at.area,
    check: check.id,
    side: slot.side,
    first,
    retest,
    stands,
    isWorstSide: false,
    notTested:
      stands === 'not-tested' ? whyNot(course, at, check, 'checks', first ?? retest) : null,
    notRetested: isMissing ? whyNot(course, at, check, 'retest', retest) : null,
  };
}

/** Pain that referred the area at once: the rules keep no answer of that check, the report does. */
function hurtIn(
  { settings }: Course,
  { referred }: AreaCourse,
  { check, side }: Slot,
  findings: readonly FindingTold[],
): Given | null {
  const said = findings.findLast((one) => one.check === check);
  if (!referred || said === undefined || !findingHurts(settings, said)) return null;
  if (said.side !== side && said.side !== 'both') return null;
  const { faults, angleDegrees, tool, pain, painKind } = said;
  return { result: 'pain', faults, angleDegrees, tool, pain, painKind, tries: 1 };
}

function givenIn(round: Round, slot: Slot, findings: readonly FindingTold[]): Given | null {
  const { answer, tries } = trialOf(round, slot);
  if (answer === null) return null;
  const own = findings.filter(({ id }) => id === answer.entry);
  const said = own.find(({ side }) => side === slot.side) ?? own[0];
  return {
    result: answer.result,
    faults: answer.faults,
    angleDegrees: said?.angleDegrees ?? null,
    tool: said?.tool ?? null,
    pain: said?.pain ?? null,
    painKind: said?.painKind ?? null,
    tries,
  };
}

/** The first reason that applies, the most lasting first. */
function whyNot(
  course: Course,
  at: AreaCourse,
  check: CheckScript,
  round: 'checks' | 'retest',
  given: Given | null,
): NotTestedWhy {
  const { needsCoach, equipment, loaded } = check;
  if (given !== null) return 'coach';
  if (needsCoach && course.way === 'alone') return 'alone';
  if (equipment.length > 0 && !equipment.some((id) => isThere(course, id))) return 'equipment';
  if (at.referred) return isFlagged(course, at) ? 'ended' : 'pain';
  if (round === 'retest' && at.climb?.ended === 'pain') return 'pain';
  if (loaded && !mayLoad(course, at)) return 'pain';
  if (loaded && at.all.some((one) => !one.loaded && stillFails(at, one))) return 'unloaded-failed';
  if (at.timeUp) return 'time';
  const item = course.routine.items.findIndex(
    (one) => one.area === at.area && (one.do === 'retest' || one.do === round),
  );
  if (item < 0 || course.item <= item) return 'ended';
  return course.isRecounted ? 'passed-by' : 'coach';
}

const stillFails = (at: AreaCourse, check: CheckScript): boolean =>
  slotsOf(check).some((slot) => {
    const answers = [trialOf(at.retests, slot).answer, trialOf(at.checks, slot).answer];
    const last = answers.find((answer) => answer !== null && answer.result !== 'not-tested');
    return last !== undefined && last?.result !== 'held';
  });

/** Whether a red flag, and not pain, referred this area (rule 7.4): it was the one at hand. */
export const isFlagged = (course: Course, at: AreaCourse): boolean =>
  course.ended === 'red-flag' && areaAtHand(course) === at;

/** The pattern of what failed and did not come back; null where nothing did. */
export function patternOf(
  course: Course,
  at: AreaCourse,
  reports: readonly CheckReport[],
): Pattern | null {
  if (isFlagged(course, at)) return 'warning-sign';
  const failed = reports.filter(({ stands }) => stands === 'failed');
  const given = failed.map(standing).filter((one) => one !== null);
  if (at.referred || at.climb?.ended === 'pain' || given.some(({ result }) => result === 'pain')) {
    return 'pain';
  }
  if (failed.length === 0) return null;
  const isLoaded = ({ check }: CheckReport) => course.book.checks[check]?.loaded ?? false;
  const unloaded = reports.filter((report) => !isLoaded(report));
  if (unloaded.length > 0 && unloaded.every(({ stands }) => stands === 'held')) {
    return 'only-under-bar';
  }
  const kinds = given.flatMap(({ faults }) => faults.map((id) => course.book.faults[id]?.kind));
  const isShort = given.some(({ result }) => result === 'short') || kinds.includes('range');
  const isLost = given.some(({ result }) => result === 'lost');
  if (isShort && isLost) return 'range-and-position';
  return isShort ? 'range-short' : 'position-given-up';
}

/** The area's course by its name. Throws where the routine has no such area. */
export function courseOfArea(course: Course, area: Area): AreaCourse {
  const at = course.areas.get(area);
  if (at === undefined) throw new Error(`This routine has no area "${area}".`);
  return at;
}

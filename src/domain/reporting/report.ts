/**
 * What a session came to, as a pure function of the book and the log: outcome of each area with
 * its reasons, lifts, homework, next date, cautions. Screens, the closing words and the sheet are
 * made of it. Rules are numbered in deciding/RULES.md, chapters 12 and 13.
 */
import type { Side } from '../areas';
import { areaStates, findingsOf, type FindingTold } from '../deciding/deciding';
import type { Course } from '../deciding/course';
import type { AreaState } from '../deciding/step';
import { courseOf } from '../deciding/walking';
import type { Finding, Load, PainKind } from '../findings';
import type { Entry, EntryOf } from '../log';
import type { CheckId, CueBook, DrillId, PromptId } from '../script';
import {
  checkReports,
  courseOfArea,
  patternOf,
  standing,
  type CheckReport,
  type NotTestedWhy,
  type Pattern,
} from './areaReport';
import { hasNewPain, whoLooks, type WhoLooks } from './barred';
import { cautionsOf } from './cautions';
import { decisionsOf } from './decided';
import { homeworkOf, type Homework, type NoHomework } from './homework';
import { ladderHistory, type RungReport } from './ladderHistory';
import { liftsMissing, liftsThatMay, type LiftMissing } from './lifts';
import { nextHomeworkOf, nextVisitOf, type NextVisit } from './nextDate';
import { measuredOf, type CheckMeasured } from './measured';
import { anglesTold, sourceSentences, type AngleTold } from './measuredWords';
import { areaSentence } from './outcomeWords';
import { reasonsOf } from './wording';

/** A finding as it counts in the end; `both` is one a side. */
export interface FoundFinding extends Finding {
  prompt: PromptId;
  load: Load | null;
  painKind: PainKind | 'unanswered' | null;
}

/** How an area stands, and why. */
export interface AreaOutcomeReport extends AreaState {
  pattern: Pattern | null;
  /** Who looks before anything loaded is done in it again, after pain (rule 12.12). */
  waitsFor: WhoLooks;
  /** Outcome and pattern in words. */
  sentence: string;
  /** What failed, came back and was not tested, a sentence each. */
  reasons: string[];
  failed: { check: CheckId; side: Side | null; faults: string[]; isWorstSide: boolean }[];
  regained: { check: CheckId; side: Side | null }[];
  notTested: { check: CheckId; side: Side | null; why: NotTestedWhy }[];
}

/** The angles of a check with what they say, and where the figures behind it come from. */
export interface MeasuredTold extends CheckMeasured {
  told: AngleTold[];
  sources: string[];
}

/** What is told at the end of a session. */
export interface Outcome {
  /** Who said what was found: alone it is the athlete's own report (rule 12.13). */
  reportedBy: 'coach' | 'athlete';
  areas: AreaOutcomeReport[];
  liftsReady: string[];
  liftsMissing: LiftMissing[];
  homework: Homework[];
  noHomework: NoHomework[];
  /** ISO calendar date, or null where somebody must decide first. */
  nextDate: string | null;
  nextVisit: NextVisit;
  cautions: string[];
  /** The angles of every check that has any: change, sides, line, norm, each in words too. */
  measured: MeasuredTold[];
  findings: FoundFinding[];
  decisions: Pick<
    EntryOf<'decision'>,
    'area' | 'from' | 'to' | 'because' | 'rule' | 'by' | 'atSeconds'
  >[];
}

/** All of it, with what a sheet needs besides: every check, side by side, and every rung. */
export interface Report extends Outcome {
  checks: CheckReport[];
  ladders: (RungReport & { area: AreaState['area']; drill: DrillId })[];
}

/** The report of a log at any moment. Throws where the log has no start. */
export const reportOf = (book: CueBook, entries: readonly Entry[]): Report => ({
  ...outcomeOf(book, entries),
  ...tablesOf(book, entries),
});

/** What a log comes to, as it is told at its end. */
export function outcomeOf(book: CueBook, entries: readonly Entry[]): Outcome {
  const course = courseOf(book, entries);
  const findings = findingsOf(entries);
  const states = areaStates(book, entries);
  const isWarned = course.ended === 'red-flag' || hasRedFlag(entries);
  const areas = states.map((state) => areaReport(course, state, findings));
  const looked = states.map((state) => {
    const at = courseOfArea(course, state.area);
    return {
      ...state,
      looks: isWarned ? null : whoLooks(course, at, findings),
      waits: state.outcome === 'referred' || hasNewPain(course, at, findings),
    };
  });
  // What an athlete did alone of a handover says nothing of lifts, and hands nothing over anew.
  const isHomework = course.homework !== null;
  const ready = isWarned ? [] : liftsThatMay(looked);
  const tasks =
    isWarned || isHomework
      ? []
      : states
          .filter(({ outcome }) => outcome === 'working')
          .map(({ area }) => homeworkOf(course, courseOfArea(course, area), findings));
  const homework = tasks.filter((task) => 'drill' in task);
  const nextVisit =
    isHomework && !isWarned
      ? nextHomeworkOf(book, looked, startedAt(entries))
      : nextVisitOf(book, looked, startedAt(entries), {
          endedOnWarning: isWarned,
          hasHomework: homework.length > 0,
        });
  return {
    reportedBy: course.way === 'alone' ? 'athlete' : 'coach',
    areas,
    liftsReady: ready,
    liftsMissing: isHomework ? [] : liftsMissing(book, looked, ready),
    homework,
    noHomework: tasks.filter((task) => !('drill' in task)),
    nextDate: nextVisit.date,
    nextVisit,
    cautions: cautionsOf(course, findings, isWarned),
    measured: measuredTold(course, entries),
    findings: findings.flatMap(foundSides),
    decisions: decisionsOf(entries).map(({ area, from, to, because, rule, by, atSeconds }) => ({
      area,
      from,
      to,
      because,
      rule,
      by,
      atSeconds,
    })),
  };
}

/** Every check, side by side, and every rung of the areas of the routine. */
function tablesOf(book: CueBook, entries: readonly Entry[]): Pick<Report, 'checks' | 'ladders'> {
  const course = courseOf(book, entries);
  const findings = findingsOf(entries);
  const areas = [...course.areas.values()];
  return {
    checks: areas.flatMap((at) => checkReports(course, at, findings)),
    ladders: areas.flatMap(({ area }) =>
      ladderHistory(book, area, findings).map((rung) => ({ area, ...rung })),
    ),
  };
}

function measuredTold(course: Course, entries: readonly Entry[]): MeasuredTold[] {
  const { book, settings } = course;
  const findings = findingsOf(entries);
  const checks = [...course.areas.values()].flatMap((at) => checkReports(course, at, findings));
  const measured = measuredOf(checks, {
    passLineDegrees: settings.passLineDegrees,
    sex: entries.find((entry) => entry.type === 'started')?.athlete?.sex,
  });
  return measured.map((one) => ({
    ...one,
    told: anglesTold(book, one),
    sources: sourceSentences(book, one),
  }));
}

/** The pattern of one area alone, for the moment it closes. */
export const patternNow = (book: CueBook, entries: readonly Entry[], area: AreaState['area']) => {
  const course = courseOf(book, entries);
  const at = courseOfArea(course, area);
  return patternOf(course, at, checkReports(course, at, findingsOf(entries)));
};

const hasRedFlag = (entries: readonly Entry[]): boolean =>
  entries.some(({ type }) => type === 'red-flag');

const startedAt = (entries: readonly Entry[]): string =>
  entries.find((entry) => entry.type === 'started')?.startedAt ?? '';

function areaReport(
  course: Course,
  state: AreaState,
  findings: readonly FindingTold[],
): AreaOutcomeReport {
  const { book } = course;
  const at = courseOfArea(course, state.area);
  const checks = checkReports(course, at, findings);
  const pattern = patternOf(course, at, checks);
  const failed = checks.filter(({ stands }) => stands === 'failed');
  const regained = checks.filter(
    ({ first, stands }) => stands === 'held' && first !== null && first.result !== 'held',
  );
  return {
    ...state,
    pattern,
    waitsFor: whoLooks(course, at, findings),
    sentence: areaSentence(course, state, pattern, findings),
    reasons: reasonsOf(book, checks),
    failed: failed.map((report) => ({
      check: report.check,
      side: report.side,
      faults: standing(report)?.faults ?? [],
      isWorstSide: report.isWorstSide,
    })),
    regained: regained.map(({ check, side }) => ({ check, side })),
    notTested: checks.flatMap(({ check, side, notTested }) =>
      notTested === null ? [] : [{ check, side, why: notTested }],
    ),
  };
}

/** One finding a side, as the timeline tells it. */
function foundSides(told: FindingTold): FoundFinding[] {
  const { prompt, side, result, faults, angleDegrees, tool, pain, painKind, load } = told;
  const found = { prompt, side, result, faults, angleDegrees, tool, pain, painKind, load };
  return side === 'both'
    ? [
        { ...found, side: 'left' },
        { ...found, side: 'right' },
      ]
    : [found];
}

/**
 * Homework over days (RULES.md, chapter 15): what is done now of what a coach handed over, from
 * the logs of the homework before. Pure: the same logs and the same moment give the same tasks.
 *
 * How it is used: `const day = nextTasks(book, handover, logs, now)` when the homework is opened.
 * `day.tasks` and `day.left` are told by `taskSentence` and `leftSentence` (progressWords.ts).
 * Where there are tasks, the session machine is given `{ book, ports, ..., ...homeworkSession(day) }`;
 * its log carries all of `day`, so it is told, gone on with and counted by itself. Afterwards that
 * log is one of the earlier ones.
 */
import { findingsOf } from '../deciding/corrected';
import type { AreaCourse, Course } from '../deciding/course';
import { live, type FindingTold } from '../deciding/reading';
import { courseOf } from '../deciding/walking';
import { DEFAULT_SETTINGS, type Entry, type SessionSettings } from '../log';
import { hasNewPain } from '../reporting/barred';
import type { CueBook, DrillId, EquipmentId, RoutineId } from '../script';
import type { Way } from '../areas';
import type { Handover } from './handover';
import { HOMEWORK, type HomeworkDay } from './progressDay';
import { isEased } from './progressLoad';
import {
  beginProgress,
  capped,
  scriptOf,
  settled,
  taskOn,
  type AreaProgress,
  type Progress,
  type Stand,
} from './progressState';

/**
 * What is done of a handover at `now` (wall time, ISO 8601 with offset) after the earlier logs of
 * homework, in any order; logs of another handover, and of anything else, count for nothing. Days
 * are those on the wall where each log began. Throws where a task or a log names a drill that the
 * book does not have.
 */
export function nextTasks(
  book: CueBook,
  handover: Handover,
  earlier: readonly (readonly Entry[])[],
  now: string,
): HomeworkDay {
  const progress = beginProgress(book, handover);
  const logs = earlier
    .flatMap((log) => {
      const started = log.find((entry) => entry.type === 'started');
      return started?.homework?.handover.id === handover.id ? [{ log, started }] : [];
    })
    .sort((one, other) => Date.parse(one.started.startedAt) - Date.parse(other.started.startedAt));
  for (const { log, started } of logs) count(progress, log, dayOf(started.startedAt));
  const day: HomeworkDay = { handover, tasks: [], left: [] };
  for (const state of progress.areas) {
    const task = taskOn(progress, state, dayOf(now));
    if ('drill' in task) day.tasks.push(task);
    else day.left.push(task);
  }
  return day;
}

/** The date on the wall. */
const dayOf = (moment: string): string => moment.slice(0, 10);

/** What a session of that homework begins with, beside book, ports and names. */
export interface HomeworkSession {
  routine: RoutineId;
  way: Way;
  settings: SessionSettings;
  missing: EquipmentId[];
  allowedAlone: DrillId[];
  homework: HomeworkDay;
}

/** Alone, in the words of learning, with the bands of pain as the coach set them. */
export function homeworkSession(homework: HomeworkDay): HomeworkSession {
  const { painGoesOnUpTo, painRefersAbove, missing, allowedAlone } = homework.handover;
  return {
    routine: HOMEWORK,
    way: 'alone',
    settings: { ...DEFAULT_SETTINGS, painGoesOnUpTo, painRefersAbove, words: 'learning' },
    missing,
    allowedAlone,
    homework,
  };
}

function count(progress: Progress, log: readonly Entry[], day: string): void {
  const course = courseOf(progress.book, log);
  const findings = findingsOf(log);
  // Before anything of it counts, what was to be done that day is what the days before made it.
  const planned = progress.areas.map((state) => taskOn(progress, state, day));
  if (log.some(({ type }) => type === 'red-flag')) progress.isWarned = true;
  if (course.loadedBarred) progress.isLoadBarred = true;
  progress.areas.forEach((state, index) => {
    const at = course.areas.get(state.handed.area);
    const task = planned[index];
    if (at === undefined || at.climb === null) return;
    const { area } = at;
    // Pain of which the kind was not said, because it ended before, counts as new.
    const isUntold = course.morning?.area === area;
    if (at.referred || isUntold || hasNewPain(course, at, findings)) state.isReferred = true;
    if (at.unloadedOnly) {
      state.isUnloadedOnly = true;
      state.hurtFrom = Math.min(state.hurtFrom, at.standInsBelow);
    }
    if (at.hurt) state.isHeld = false;
    if (live(log).some((entry) => isAnswered(entry, area))) state.askedOn = day;
    const isDone = course.counted.some((one) => one.as === 'set' && one.area === area);
    if (!isDone || task === undefined || !('drill' in task)) return;
    take(progress, state, { course, at, findings, day, planned: task });
  });
}

const isAnswered = (entry: Entry, area: string): boolean =>
  entry.type === 'morning' && entry.area === area && entry.pain !== 'unanswered';

interface Done {
  course: Course;
  at: AreaCourse;
  findings: readonly FindingTold[];
  day: string;
  planned: Stand;
}

/** Takes what was done of an area. */
function take(progress: Progress, state: AreaProgress, done: Done): void {
  const { at, day, planned } = done;
  const { climb } = at;
  if (climb === null) return;
  const { visit, rung } = climb;
  const isBeyond = rung > planned.rung;
  const { drill, load } = visit;
  const stand = isBeyond ? planned : capped(progress, state, { drill, rung, load });
  const isSameDay = state.day !== null && day <= state.day;
  state.isHeld = !isBeyond && isAllHeld(progress, done) && (!isSameDay || state.isHeld);
  if (!isSameDay) state.day = day;
  const rungs = done.course.counted.flatMap((one) =>
    one.as === 'set' && one.area === at.area ? [one.rung] : [],
  );
  state.doneOn.set(day, Math.max(state.doneOn.get(day) ?? 0, ...rungs));
  state.did = stand;
  state.at = stand;
  state.why = rung < planned.rung ? 'back' : 'same';
  for (const from of climb.steppedBackFrom) noteBack(state, from);
  const isTooMuch = visit.fails > 1 || (visit.fails > 0 && isEased(load));
  if (!isBeyond && isTooMuch && visit.heldInRow === 0) makeLess(progress, state);
}

/** Every set of the dose, as it counts now, held and without pain. */
function isAllHeld({ book }: Progress, { at, findings }: Done): boolean {
  const own = findings.filter(({ drill }) => book.drills[drill ?? '']?.area === at.area);
  const isClean = own.every(({ result, pain }) => result === 'held' && (pain ?? 0) === 0);
  return at.climb?.ended === 'dose' && at.climb.visit.fails === 0 && isClean && !at.hurt;
}

/** Made easier where it can be and was not, else a rung down, where there is one. */
function makeLess(progress: Progress, state: AreaProgress): void {
  const { at } = state;
  const { easier } = scriptOf(progress, at.drill);
  if (easier !== null && !isEased(at.load)) {
    state.at = { ...at, load: easier.load };
    state.why = 'easier';
    return;
  }
  const lower = settled(progress, state, { ...at, rung: at.rung - 1 });
  if (lower === null) return;
  noteBack(state, at.rung);
  state.at = lower;
  state.why = 'back';
}

const noteBack = (state: AreaProgress, rung: number): void => {
  state.backFrom.set(rung, (state.backFrom.get(rung) ?? 0) + 1);
};

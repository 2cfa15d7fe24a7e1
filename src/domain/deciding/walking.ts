import type { Entry, EntryOf } from '../log';
import type { CueBook } from '../script';
import { answer } from './answering';
import { needsClimb } from './climbing';
import { areaAtHand, because, nameOf, openCourse, type Course, type Reason } from './course';
import { openHomework, settleMorning, takeMorning } from './homework';
import { judge, refer } from './hurting';
import { overrule, REFUSED } from './overruling';
import { advance, homeworkBegins, idOf, isPending, nameAt, placeOf } from './place';
import { live } from './reading';
import { recount } from './recounting';

/** Entries that are only notes: nothing is decided from them (rule 8.1). */
const NOTES: readonly Entry['type'][] = [
  ...(['asked', 'heard', 'decision', 'outcome', 'words', 'corrected'] as const),
];
const isNote = ({ type }: Entry): boolean => NOTES.includes(type);

/**
 * Folds a log up to where the session stands, with what was corrected after it (chapter 14).
 * Throws where it has no start.
 */
export function courseOf(book: CueBook, entries: readonly Entry[]): Course {
  const log = live(entries).filter((entry) => !isNote(entry));
  const started = log.find((entry): entry is EntryOf<'started'> => entry.type === 'started');
  if (started === undefined) {
    throw new Error('This log has no start: its first entry must be of type "started".');
  }
  const course = openCourse(book, started);
  openHomework(course);
  const done = advance(course);
  course.reason = done ?? begins(course) ?? because('12.5', 'done');
  log.forEach((entry, at) => {
    if (course.ended === null) take(course, entry, log[at + 1]);
  });
  recount(course, entries);
  return course;
}

/** What the session begins with, or null where there is nothing to do. */
function begins(course: Course): Reason | null {
  const place = placeOf(course);
  if (course.mornings.length > 0) return because('15.12', 'morning');
  if (place?.at.task) return homeworkBegins(course, place.at, 'homework-begin');
  return place && because('10.1', 'begin', { check: nameAt(course, place) });
}

function take(course: Course, entry: Entry, next: Entry | undefined): void {
  tick(course, entry.atSeconds);
  if (entry.type !== 'paused' && entry.type !== 'resumed') course.then = null;
  if (entry.type === 'finding' || entry.type === 'overrule') course.also = [];
  switch (entry.type) {
    case 'red-flag': {
      const at = areaAtHand(course);
      course.flagged = at?.area ?? null;
      if (at !== null) refer(course, at.area);
      return end(course, 'red-flag', because('7.4', 'red-flag', {}, { area: at?.area ?? null }));
    }
    case 'ended':
      return end(course, entry.reason, because('12.6', 'ended'));
    case 'halted':
      course.halted = true;
      return;
    case 'end-answered':
      course.halted = false;
      if (entry.end) return end(course, 'stopped', because('7.3', 'stopped'));
      course.reason = because('7.2', 'going-on');
      return;
    case 'paused':
      course.paused = true;
      return;
    case 'resumed':
      course.paused = false;
      return;
    case 'finding':
      return takeFinding(course, entry, next);
    case 'pain-number':
      if (course.pain === null) return;
      course.pain.number ??= entry.pain;
      return settlePain(course);
    case 'morning':
      return settleMornings(course, takeMorning(course, entry, next));
    case 'pain-kind':
      if (course.morning !== null) {
        const { kind } = entry;
        return settleMornings(course, settleMorning(course, { ...course.morning, kind }));
      }
      if (course.pain === null) return;
      course.pain.kind ??= entry.kind;
      return settlePain(course);
    case 'overrule':
      if (course.halted) return;
      leave(course);
      return settle(course, overrule(course, entry));
    default:
  }
}

/** Rule 6.1: time counts for the area at hand, but not in pauses and halts. */
function tick(course: Course, atSeconds: number): void {
  const at = areaAtHand(course);
  if (at !== null && !course.paused && !course.halted) {
    at.activeSeconds += atSeconds - course.atSeconds;
  }
  course.atSeconds = atSeconds;
}

function end(course: Course, reason: Course['ended'], why: Reason): void {
  course.from = idOf(placeOf(course));
  course.ended = reason;
  course.reason = why;
}

/** Notes what is left behind: its name, and how its drill was set up. */
function leave(course: Course): void {
  const place = placeOf(course);
  course.from = idOf(place);
  if (place?.do !== 'set') return;
  const { drill, load } = place.climb.visit;
  course.setUp.set(drill, load);
}

function takeFinding(course: Course, finding: EntryOf<'finding'>, next: Entry | undefined): void {
  const isSaidToo = next?.type === 'pain-kind' && next.atSeconds === finding.atSeconds;
  const kind = isSaidToo ? next.kind : null;
  // Pain that waits for an answer is not lifted by a result without it.
  const open = course.pain;
  course.pain = {
    finding,
    said:
      open !== null ||
      finding.result === 'pain' ||
      finding.pain !== null ||
      kind !== null ||
      finding.asksPain === true,
    number: finding.pain ?? open?.number ?? null,
    kind: kind ?? open?.kind ?? null,
  };
  settlePain(course);
}

/** Asks for what is missing, or answers the finding once its pain is known. */
function settlePain(course: Course): void {
  const { pain } = course;
  if (pain === null) return;
  leave(course);
  const verdict = judge(course, pain);
  if (verdict === 'number') course.reason = because('1.1', 'pain-number');
  else if (verdict === 'kind') course.reason = because('1.2', 'pain-kind');
  else {
    course.pain = null;
    settle(course, answer(course, pain));
  }
}

/** What a morning changes is told at once; without a change the homework begins as planned. */
function settleMornings(course: Course, reason: Reason | null): void {
  const entered = advance(course);
  if (course.morning !== null && reason !== null) {
    course.reason = reason;
    return;
  }
  if (reason !== null) course.also.push(reason);
  course.reason = begins(course) ?? entered ?? because('12.5', 'done');
}

/** Caps, then the next part of the routine where this one is done; a refused word does nothing. */
function settle(course: Course, reason: Reason): void {
  if (reason.rule === REFUSED) {
    course.reason = reason;
    return;
  }
  const chosen = cap(course) ?? reason;
  const entered = advance(course);
  course.reason = chosen.passing && entered !== null ? entered : chosen;
  if (!chosen.passing) course.then = entered;
}

/** Rules 6.1 and 6.2: what of the area is over now because its time or its sets are. */
function cap(course: Course): Reason | null {
  const at = areaAtHand(course);
  const item = course.routine.items[course.item];
  if (at === null || item === undefined || at.referred) return null;
  const { areaMinutes: minutes, ladderSets: sets } = course.settings;
  const area = nameOf(course.book, at.area);
  const { climb } = at;
  if (!at.timeUp && at.activeSeconds >= minutes * 60) {
    const wanted = item.do !== 'retest' && (isPending(course, item) || needsClimb(course, at));
    at.timeUp = true;
    if (climb !== null && climb.ended === null) climb.ended = 'cap';
    if (wanted) return because('6.1', 'time-cap', { minutes, area });
  }
  if (climb === null || climb.ended !== null || climb.sets < sets) return null;
  climb.ended = 'cap';
  return because('6.2', 'set-cap', { sets });
}

import type { Side } from '../areas';
import type { DrillId, DrillScript, Ladder } from '../script';
import { failuresOf } from './checking';
import {
  because,
  mayLoad,
  type Answer,
  type AreaCourse,
  type Climb,
  type Course,
  type Reason,
  type Visit,
} from './course';

export const HELD_IN_ROW = 2;

export function ladderOf({ book }: Course, { area }: AreaCourse): Ladder {
  const ladder = book.ladders[area];
  if (ladder === undefined) throw new Error(`There is no ladder for ${area}: add it.`);
  return ladder;
}

/** A drill's script. Throws where a ladder or an entry names a drill that is not there. */
export function drillOf({ book }: Course, id: DrillId): DrillScript {
  const drill = book.drills[id];
  if (drill === undefined) {
    const known = Object.keys(book.drills).join(', ');
    throw new Error(`There is no drill "${id}". Known drills: ${known}.`);
  }
  return drill;
}

/** Whether a drill may be done now: not over by pain, and not loaded after pain. */
export const mayDrill = (course: Course, at: AreaCourse, drill: DrillId): boolean =>
  !at.climb?.over.has(drill) && (!drillOf(course, drill).loaded || mayLoad(course, at));

/** The nearest rung that may be done from `rung` on, upwards (1) or downwards (-1), or null. */
export function rungFrom(course: Course, at: AreaCourse, rung: number, way: 1 | -1) {
  const { rungs } = ladderOf(course, at);
  for (let next = rung; next >= 1 && next <= rungs.length; next += way) {
    const drill = rungs[next - 1]?.drill;
    if (drill !== undefined && mayDrill(course, at, drill)) return { rung: next, drill };
  }
  return null;
}

const openVisit = (drill: DrillId): Visit => ({
  drill,
  set: 1,
  heldInRow: 0,
  fails: 0,
  load: 'as-written',
  eased: false,
  fix: null,
  sayGood: false,
  sides: {},
});

/** A ladder of which nothing is done yet, at a rung. */
export const openClimb = ({ rung, drill }: { rung: number; drill: DrillId }): Climb => ({
  rung,
  visit: openVisit(drill),
  lastHeld: 0,
  sets: 0,
  steppedBackFrom: new Set(),
  over: new Set(),
  ended: null,
});

/** Goes to a rung; the set is done anew from its first. */
export function visit(climb: Climb, { rung, drill }: { rung: number; drill: DrillId }): void {
  climb.rung = rung;
  climb.visit = openVisit(drill);
}

/** Rule 11.1: the lowest rung of every entry that applies, else the first. */
function entryRung(course: Course, at: AreaCourse): number {
  const failures = failuresOf(at);
  const rungs = ladderOf(course, at)
    .entry.filter((entry) =>
      failures.some(
        ({ check, result, faults }) =>
          entry.checks.includes(check) &&
          (entry.results?.includes(result) ?? true) &&
          (entry.faults?.some((fault) => faults.includes(fault)) ?? true),
      ),
    )
    .map(({ rung }) => rung);
  return rungs.length === 0 ? 1 : Math.min(...rungs);
}

/** Whether this area's ladder is to be climbed, now or later (rules 11.1, 11.2, 1.3, 6.1). */
export function needsClimb(course: Course, at: AreaCourse): boolean {
  if (at.referred || at.timeUp) return false;
  if (at.climb !== null) return at.climb.ended === null;
  return failuresOf(at).length > 0 && rungFrom(course, at, entryRung(course, at), -1) !== null;
}

/** Begins the ladder; nothing happens where it was begun before. */
export function beginClimb(course: Course, at: AreaCourse): Reason | null {
  if (at.climb !== null) return null;
  const entry = rungFrom(course, at, entryRung(course, at), -1);
  if (entry === null) return null;
  at.climb = openClimb(entry);
  const drill = drillOf(course, entry.drill).name;
  return because('11.1', 'enter', { drill, rung: entry.rung });
}

/** Rules 2.1, 2.4, 4.3: up to the next rung that may be done, or the end of the ladder. */
function goUp(course: Course, at: AreaCourse, climb: Climb): Reason {
  climb.lastHeld = climb.rung;
  const drill = drillOf(course, climb.visit.drill).name;
  const next = rungFrom(course, at, climb.rung + 1, 1);
  if (next === null) {
    const isTop = climb.rung === ladderOf(course, at).rungs.length;
    climb.ended = 'top';
    return isTop ? because('4.3', 'top', { drill }) : because('2.4', 'no-higher', { drill });
  }
  visit(climb, next);
  return because('2.1', 'up', { drill: drillOf(course, next.drill).name });
}

/** Rules 3.4, 4.1, 4.2: back a rung, or the end of the ladder. */
function stepBack(course: Course, at: AreaCourse, climb: Climb): Reason {
  const drill = drillOf(course, climb.visit.drill).name;
  if (climb.steppedBackFrom.has(climb.rung)) {
    climb.ended = 'failed';
    return because('4.1', 'again-after-back', { drill });
  }
  climb.steppedBackFrom.add(climb.rung);
  const lower = rungFrom(course, at, climb.rung - 1, -1);
  if (lower === null) {
    climb.ended = 'failed';
    return because('4.2', 'first-rung', { drill });
  }
  visit(climb, lower);
  return because('3.4', 'step-back', { drill: drillOf(course, lower.drill).name });
}

/** Rules 3.1 to 3.4: what follows a failed set. */
function fail(course: Course, at: AreaCourse, climb: Climb, answers: Answer[]): Reason {
  const here = climb.visit;
  const drill = drillOf(course, here.drill);
  here.fails += 1;
  here.heldInRow = 0;
  const { easier } = drill;
  if (here.fails > 1) {
    if (here.eased || easier === null) return stepBack(course, at, climb);
    repeatSet(here, null, false);
    here.eased = true;
    here.load = easier.load;
    return because('3.3', 'easier', { drill: drill.name });
  }
  const named = answers.filter(({ result }) => result !== 'held').flatMap(({ faults }) => faults);
  const fix = drill.fixes.find(({ fault }) => named.includes(fault))?.fault ?? null;
  repeatSet(here, fix, fix === null);
  if (fix === null) return because('3.2', 'no-fault', { drill: drill.name });
  const fault = course.book.faults[fix]?.readback ?? fix;
  return because('3.1', 'fix', { fault, drill: drill.name });
}

function repeatSet(here: Visit, fix: Visit['fix'], sayGood: boolean): void {
  here.set += 1;
  here.fix = fix;
  here.sayGood = sayGood;
  here.sides = {};
}

/** The side to do now: left, then right, unless one is answered. */
export function sideAtHand(course: Course, { drill, sides }: Visit): Side | null {
  if (!drillOf(course, drill).sided) return null;
  return sides.left === undefined ? 'left' : 'right';
}

/** What follows the answer to a set, or to one side of it (chapters 2, 3 and 4). */
export function answerSet(
  course: Course,
  at: AreaCourse,
  climb: Climb,
  said: Side | 'both' | null,
  answer: Answer,
): Reason {
  const here = climb.visit;
  const drill = drillOf(course, here.drill);
  let answers = [answer];
  if (drill.sided) {
    const asked = sideAtHand(course, here) ?? 'left';
    for (const side of said === 'both' ? (['left', 'right'] as const) : [said ?? asked]) {
      here.sides[side] = answer;
    }
    const { left, right } = here.sides;
    if (left === undefined || right === undefined) {
      return because('2.3', 'other-side', { name: drill.name });
    }
    answers = [left, right];
  }
  climb.sets += 1;
  if (!answers.every(({ result }) => result === 'held')) return fail(course, at, climb, answers);
  here.heldInRow += 1;
  if (here.heldInRow >= HELD_IN_ROW) return goUp(course, at, climb);
  const afterFault = here.fails > 0;
  repeatSet(here, null, false);
  return because('2.2', afterFault ? 'one-more-after-fault' : 'one-more', { drill: drill.name });
}

import type { Side } from '../areas';
import type { Load } from '../findings';
import { isEased, mostLoad } from '../handover/progressLoad';
import type { DrillId, DrillScript, Ladder } from '../script';
import { failuresOf, hasUntestedUnloaded } from './checking';
import {
  because,
  isBarredByJoined,
  isThere,
  mayLoad,
  nameOf,
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

/** The drills that a rung may be done with, its own first. */
export const drillsOn = (course: Course, at: AreaCourse, rung: number): DrillId[] => {
  const here = course.book.ladders[at.area]?.rungs[rung - 1];
  return here === undefined ? [] : [here.drill, ...(here.alternates ?? [])];
};

/** The rung that a drill or alternate stands on; 0 where it is on none. */
export const rungOf = (course: Course, at: AreaCourse, drill: DrillId): number =>
  1 +
  (course.book.ladders[at.area]?.rungs ?? []).findIndex(
    (rung) => rung.drill === drill || rung.alternates?.includes(drill),
  );

/** Whether pain forbids a drill: it is over, or loaded, or a stand-in too high (rule 1.13). */
export function isBarredByPain(course: Course, at: AreaCourse, drill: DrillId): boolean {
  if (at.climb?.over.has(drill)) return true;
  if (mayLoad(course, at)) return false;
  if (drillOf(course, drill).loaded) return true;
  const rung = rungOf(course, at, drill);
  const own = drillsOn(course, at, rung)[0];
  const standsIn = own !== undefined && drillOf(course, own).loaded;
  return standsIn && (isBarredByJoined(course, at) || rung >= at.standInsBelow);
}

/** What keeps a drill from being done now, the gravest first; `handover`: it is no homework. */
export type Bar = 'pain' | 'alone' | 'handover' | 'equipment';

/** Why a drill may not be done now (rules 1.5 to 1.13, 11.4, 11.5, 15.4), or null where it may. */
export function barOf(course: Course, at: AreaCourse, drill: DrillId): Bar | null {
  const { aloneOnlyIfAllowed, equipment } = drillOf(course, drill);
  if (isBarredByPain(course, at, drill)) return 'pain';
  if (aloneOnlyIfAllowed && course.way === 'alone' && !course.allowedAlone.includes(drill)) {
    return 'alone';
  }
  if (at.task?.may.includes(drill) === false) return 'handover';
  return equipment.every((id) => isThere(course, id)) ? null : 'equipment';
}

/** A drill on its rung, with the load that it is done with. */
export interface Stand {
  rung: number;
  drill: DrillId;
  load: Load;
}

/** Where a drill is begun: as written, and in homework with no more than was handed over. */
export function standOn(course: Course, at: AreaCourse, rung: number, drill: DrillId): Stand {
  const { task } = at;
  if (task === null) return { rung, drill, load: 'as-written' };
  if (drill === task.drill) return { rung, drill, load: task.load };
  const handed = course.homework?.handover.tasks.find(({ area }) => area === at.area) ?? task;
  const { drills } = course.book;
  const most = mostLoad(drills, handed, drillOf(course, drill), course.allowedAlone);
  return { rung, drill, load: most ?? 'unloaded' };
}

/**
 * The nearest rung that may be done from `rung` on, upwards (1) or downwards (-1), with the first
 * of its drills that may; or null.
 */
export function rungFrom(course: Course, at: AreaCourse, rung: number, way: 1 | -1) {
  const { length } = ladderOf(course, at).rungs;
  for (let next = rung; next >= 1 && next <= length; next += way) {
    const drill = drillsOn(course, at, next).find((one) => barOf(course, at, one) === null);
    if (drill !== undefined) return standOn(course, at, next, drill);
  }
  return null;
}

const openVisit = ({ drill, load }: Stand): Visit => ({
  drill,
  set: 1,
  heldInRow: 0,
  fails: 0,
  load,
  eased: isEased(load),
  fix: null,
  sayGood: false,
  lookFirst: false,
  sides: {},
});

/** A ladder of which nothing is done yet, at a rung. */
export const openClimb = (stand: Stand): Climb => ({
  rung: stand.rung,
  visit: openVisit(stand),
  lastHeld: 0,
  lastHeldDrill: null,
  sets: 0,
  steppedBackFrom: new Set(),
  over: new Set(),
  ended: null,
});

/** Goes to a rung; the set is done anew from its first. */
export function visit(climb: Climb, stand: Stand): void {
  climb.rung = stand.rung;
  climb.visit = openVisit(stand);
}

/**
 * Rule 11.1: the lowest rung of every entry that applies, else the first. What failed under load
 * shows "only with the bar" where the unloaded checks held, and says nothing of where one was left out.
 */
function entryRung(course: Course, at: AreaCourse): number {
  const failures = failuresOf(at);
  const isLoaded = ({ check }: { check: string }) => course.book.checks[check]?.loaded === true;
  if (failures.some(isLoaded) && hasUntestedUnloaded(at)) return 1;
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
  return because('11.1', 'enter', { drill, area: nameOf(course.book, at.area) });
}

/** Rules 2.1, 2.4, 4.3: up to the next rung that may be done, or the end of the ladder. */
function goUp(course: Course, at: AreaCourse, climb: Climb): Reason {
  climb.lastHeld = climb.rung;
  climb.lastHeldDrill = climb.visit.drill;
  const drill = drillOf(course, climb.visit.drill).name;
  const above = climb.rung + 1;
  const next = rungFrom(course, at, above, 1);
  if (next === null) {
    climb.ended = 'top';
    const bar = gravestBar(course, at, above);
    return bar === null
      ? because('4.3', 'top', { drill })
      : because('2.4', `no-higher-${bar}`, { drill });
  }
  visit(climb, next);
  const up = { drill: drillOf(course, next.drill).name };
  return next.rung === above ? because('2.1', 'up', up) : because('2.4', 'up-past', up);
}

/** What bars the rungs from `rung` up; null where there are none. */
function gravestBar(course: Course, at: AreaCourse, rung: number) {
  const { rungs } = ladderOf(course, at);
  const bars = rungs.slice(rung - 1).map(({ drill }) => barOf(course, at, drill));
  return (['pain', 'alone', 'equipment'] as const).find((bar) => bars.includes(bar)) ?? null;
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
  const isHeld = answers.every(({ result }) => result === 'held');
  const isLast = at.task !== null && here.set >= drill.dose.sets;
  if (isLast) return endDose(climb, drill.name, isHeld);
  if (!isHeld) return fail(course, at, climb, answers);
  here.heldInRow += 1;
  if (at.task !== null) {
    repeatSet(here, null, false);
    return because('15.2', 'homework-set', { drill: drill.name });
  }
  if (here.heldInRow >= HELD_IN_ROW) return goUp(course, at, climb);
  const isFixed = here.fix !== null;
  repeatSet(here, null, false);
  return because('2.2', isFixed ? 'one-more-after-fault' : 'one-more', { drill: drill.name });
}

/** Rule 15.2: the last set of the dose is done, held or not. */
function endDose(climb: Climb, drill: string, isHeld: boolean): Reason {
  climb.ended = 'dose';
  if (!isHeld) {
    climb.visit.heldInRow = 0;
    climb.visit.fails += 1;
    return because('15.2', 'homework-enough', { drill });
  }
  climb.visit.heldInRow += 1;
  climb.lastHeld = climb.rung;
  climb.lastHeldDrill = climb.visit.drill;
  return because('15.2', 'homework-done', { drill });
}

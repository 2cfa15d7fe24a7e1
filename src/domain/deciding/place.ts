import type { Load } from '../findings';
import { maySlot, openSlot, trialOf } from './checking';
import { beginClimb, drillOf, needsClimb, sideAtHand, HELD_IN_ROW } from './climbing';
import {
  areaAtHand,
  because,
  MOST_TRIES,
  nameOf,
  type AreaCourse,
  type Climb,
  type Course,
  type Reason,
  type Slot,
} from './course';
import type { Step } from './step';
import type { RoutineItem } from '../script';

/** The check or set at hand. */
export type Place =
  | { do: 'check'; at: AreaCourse; slot: Slot; retest: boolean }
  | { do: 'set'; at: AreaCourse; climb: Climb };

/** Where the session stands, or null when the routine is done. */
export function placeOf(course: Course): Place | null {
  const item = course.routine.items[course.item];
  const at = areaAtHand(course);
  if (item === undefined || at === null) return null;
  if (item.do === 'ladder') return at.climb === null ? null : { do: 'set', at, climb: at.climb };
  const retest = item.do === 'retest';
  const { focus } = course;
  const slot = focus && maySlot(course, at, focus, retest) ? focus : openSlot(course, at, retest);
  return slot === null ? null : { do: 'check', at, slot, retest };
}

/** Id of the check or drill at hand. */
export const idOf = (place: Place | null): string | null =>
  place === null ? null : place.do === 'check' ? place.slot.check : place.climb.visit.drill;

/** The name of the check or drill at hand, as spoken. */
export function nameAt({ book }: Course, place: Place): string {
  const id = idOf(place) ?? '';
  return (place.do === 'check' ? book.checks[id]?.name : book.drills[id]?.name) ?? id;
}

/** Whether an item of the routine has something left to do (rules 5.1, 11.2). */
export function isPending(course: Course, item: RoutineItem): boolean {
  const at = course.areas.get(item.area);
  if (at === undefined || at.referred) return false;
  if (item.do === 'ladder') return needsClimb(course, at);
  return openSlot(course, at, item.do === 'retest') !== null;
}

/** Goes on to the next item that has something to do; the reason is the item's own. */
export function advance(course: Course): Reason | null {
  const { items } = course.routine;
  const before = course.item;
  for (let item = items[course.item]; item !== undefined; item = items[course.item]) {
    const hasFocus = course.focus !== null && item.do !== 'ladder';
    if (isPending(course, item) || (hasFocus && placeOf(course) !== null)) break;
    course.item += 1;
    course.focus = null;
    course.trail = [];
  }
  const item = items[course.item];
  const at = areaAtHand(course);
  if (item === undefined || at === null) return because('12.5', 'done');
  const entered = item.do === 'ladder' ? beginClimb(course, at) : null;
  if (course.item === before) return entered;
  if (at.task !== null) return homeworkBegins(course, at, 'homework-next');
  if (entered !== null) return entered;
  const place = placeOf(course);
  if (place === null) return null;
  const name = nameAt(course, place);
  const area = nameOf(course.book, item.area);
  if (item.do === 'retest') return because('5.1', 'retest', { area, check: name });
  if (item.do === 'ladder') return because('11.1', 'back-on-ladder', { area, drill: name });
  return because('10.1', 'next-area', { area, check: name });
}

/** The step of a place. */
export function stepAt(course: Course, place: Place): Step {
  const { area } = place.at;
  if (place.do === 'check') {
    const { slot, retest, at } = place;
    const { tries } = trialOf(retest ? at.retests : at.checks, slot);
    return {
      do: 'check',
      prompt: `check/${slot.check}`,
      area,
      check: slot.check,
      side: slot.side,
      try: Math.min(tries + 1, MOST_TRIES),
      retest,
    };
  }
  const { visit, rung } = place.climb;
  const leftWith = course.setUp.get(visit.drill);
  const drill = drillOf(course, visit.drill);
  return {
    do: 'set',
    prompt: `set/${visit.drill}`,
    area,
    drill: drill.id,
    side: sideAtHand(course, visit),
    rung,
    set: visit.set,
    of: place.at.task === null ? visit.set + HELD_IN_ROW - visit.heldInRow - 1 : drill.dose.sets,
    load: visit.load,
    fix: visit.fix,
    sayGood: visit.sayGood,
    lookFirst: visit.lookFirst && visit.set === 1 && Object.keys(visit.sides).length === 0,
    restored: visit.load === 'as-written' && leftWith !== undefined && leftChanged(leftWith),
    ...(place.at.task !== null && { homework: true as const }),
  };
}

/** Whether something of the set-up was changed for a load; for less depth nothing is. */
const leftChanged = (load: Load): boolean => load !== 'as-written' && load !== 'shallower';

/** Rule 15.1: which drill is done, and how often. */
export function homeworkBegins(
  course: Course,
  at: AreaCourse,
  key: 'homework-begin' | 'homework-next',
): Reason | null {
  const { climb } = at;
  if (climb === null) return null;
  return because('15.1', key, { drill: drillOf(course, climb.visit.drill).name });
}

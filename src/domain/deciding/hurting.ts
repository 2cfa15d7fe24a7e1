import type { Area } from '../areas';
import type { SessionSettings } from '../log';
import type { DrillId } from '../script';
import { visit, rungFrom, rungOf, drillOf, drillsOn, isBarredByPain } from './climbing';
import {
  areaAtHand,
  because,
  isJoined,
  nameOf,
  type AreaCourse,
  type Course,
  type OpenPain,
  type Reason,
} from './course';
import { isNew } from './newPain';
import type { FindingTold } from './reading';

/**
 * What pain asks for: its number or kind is still missing; there is none; it goes on; nothing
 * loaded and a rung back; the drill is over; or the area is referred.
 */
export type PainVerdict = 'number' | 'kind' | 'none' | 'goes-on' | 'back' | 'over' | 'refer';

/** Chapter 1: one verdict from the number and the kind. Silence counts as the worse. */
export const judge = (course: Course, pain: OpenPain): PainVerdict => weigh(course.settings, pain);

/** The same by the lines alone. */
export function weigh(
  { painGoesOnUpTo, painRefersAbove }: SessionSettings,
  { said, number, kind }: Omit<OpenPain, 'finding'>,
): PainVerdict {
  if (!said) return 'none';
  if (number === null) return 'number';
  if (number === 'unanswered' || number > painRefersAbove) return 'refer';
  if (number === 0) return isNew(kind) ? 'over' : 'none';
  if (kind === null) return 'kind';
  if (isNew(kind)) return 'over';
  return number > painGoesOnUpTo ? 'back' : 'goes-on';
}

/** Whether a finding told of pain that does not go on: new, sharp, unanswered or above the line. */
export const findingHurts = (
  { painGoesOnUpTo }: SessionSettings,
  { result, pain, painKind }: FindingTold,
): boolean =>
  (pain !== null && pain > painGoesOnUpTo) ||
  isNew(painKind) ||
  (result === 'pain' && pain === null);

/**
 * What pain bars from now on (chapter 1), wherever the session stands: a check has no `drill`.
 * True where the area is referred.
 */
export function bar(
  course: Course,
  at: AreaCourse,
  verdict: PainVerdict,
  drill: DrillId | null,
): boolean {
  if (verdict !== 'none') at.hurt = true;
  // Homework is alone: rule 15.6 goes before 1.5.
  const isOver = verdict === 'over' && (drill === null || at.task !== null);
  if (verdict === 'refer' || isOver) {
    refer(course, at.area);
    return true;
  }
  if (verdict !== 'back' && verdict !== 'over') return false;
  const rung = drill === null ? 0 : rungOf(course, at, drill);
  at.unloadedOnly = true;
  at.standInsBelow = Math.min(at.standInsBelow, verdict === 'back' ? rung : 0);
  if (verdict === 'over') for (const one of drillsOn(course, at, rung)) at.climb?.over.add(one);
  return false;
}

/** Refers an area; of squat and hinge, one bars load in both for the rest of the session. */
export function refer(course: Course, area: Area): void {
  const at = course.areas.get(area);
  if (at !== undefined) at.referred = true;
  if (isJoined(area)) course.loadedBarred = true;
}

/** Rules 1.3, 1.4 and 1.8, as the sentence for a referred area. */
export function referral(course: Course, area: Area, { number }: Pick<OpenPain, 'number'>): Reason {
  const values = { area: nameOf(course.book, area) };
  if (number === 'unanswered') return because('1.4', 'pain-unanswered', values, { area });
  const isAbove = number !== null && number > course.settings.painRefersAbove;
  if (course.homework !== null && !isAbove) {
    return because('15.6', 'homework-new-pain', values, { area });
  }
  return isAbove
    ? because('1.3', 'pain-refers', values, { area })
    : because('1.8', 'pain-new-in-check', values, { area });
}

/**
 * Leaves a drill that pain forbids: down to the nearest rung that may be done, or the ladder is
 * over (rules 1.6 and 1.7). Nothing happens where the drill at hand may go on and `mustLeave` is
 * not set.
 */
export function leaveDrill(course: Course, rule: string, mustLeave: boolean): Reason | null {
  const at = areaAtHand(course);
  const climb = at?.climb ?? null;
  const item = course.routine.items[course.item];
  if (at === null || climb === null || item?.do !== 'ladder' || climb.ended !== null) return null;
  if (at.referred || (!mustLeave && !isBarredByPain(course, at, climb.visit.drill))) return null;
  const again = climb.steppedBackFrom.has(climb.rung);
  climb.steppedBackFrom.add(climb.rung);
  const lower = again ? null : rungFrom(course, at, climb.rung - 1, -1);
  if (lower === null) {
    climb.ended = 'pain';
    return because('1.7', 'pain-ends-ladder', { area: nameOf(course.book, at.area) });
  }
  visit(climb, lower);
  const isOver = rule === '1.5';
  climb.visit.lookFirst = isOver;
  return because(rule, isOver ? 'pain-new' : 'pain-back', {
    drill: drillOf(course, lower.drill).name,
  });
}

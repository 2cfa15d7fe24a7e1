/** Chapter 15 of RULES.md inside one session: what was handed over, and the morning after. */
import type { Area, AreaOutcome } from '../areas';
import type { Entry, EntryOf } from '../log';
import { openClimb, rungFrom, standOn, visit, drillOf } from './climbing';
import { because, nameOf, type AreaCourse, type Course, type Morning, type Reason } from './course';
import { refer, referral, weigh, type PainVerdict } from './hurting';

/** Sets each area on its drill of today; it has no checks, so nothing is passed or made ready. */
export function openHomework(course: Course): void {
  for (const task of course.homework?.tasks ?? []) {
    const at = course.areas.get(task.area);
    if (at === undefined) continue;
    at.task = task;
    at.all = [];
    at.climb = openClimb(standOn(course, at, task.rung, task.drill));
  }
}

/** Rule 15.12: what is still to be known of the morning after, or null. */
export function morningToAsk(
  course: Course,
): { area: Area; asks: 'number' | 'kind'; daysAgo: number } | null {
  const area = course.morning?.area ?? course.mornings[0];
  if (area === undefined) return null;
  const daysAgo = course.areas.get(area)?.task?.before?.daysAgo ?? 1;
  return { area, asks: course.morning === null ? 'number' : 'kind', daysAgo };
}

/** Takes how an area was the morning after; a kind said in the same breath follows at once. */
export function takeMorning(
  course: Course,
  { area, pain, atSeconds }: EntryOf<'morning'>,
  next: Entry | undefined,
): Reason | null {
  if (!course.mornings.includes(area)) return null;
  course.mornings = course.mornings.filter((one) => one !== area);
  const isSaidToo = next?.type === 'pain-kind' && next.atSeconds === atSeconds;
  return settleMorning(course, { area, number: pain, kind: isSaidToo ? next.kind : null });
}

/** Rules 15.12 to 15.14: asks for the kind, or settles what the morning after changes. */
export function settleMorning(course: Course, morning: Morning): Reason | null {
  const at = course.areas.get(morning.area);
  const { number, kind } = morning;
  course.morning = null;
  if (at?.climb === null || at?.climb === undefined) return null;
  if (number === 'unanswered') {
    at.climb.ended = 'unanswered';
    return because('15.14', 'morning-unanswered', { area: nameOf(course.book, at.area) });
  }
  // Zero is no pain, whatever it is called the day after.
  const verdict = number === 0 ? 'none' : weigh(course.settings, { said: true, number, kind });
  if (verdict === 'kind') {
    course.morning = morning;
    return because('1.2', 'pain-kind');
  }
  return afterMorning(course, at, verdict, number);
}

function afterMorning(
  course: Course,
  at: AreaCourse,
  verdict: PainVerdict,
  number: number,
): Reason | null {
  const { climb, task } = at;
  const before = task?.before ?? null;
  if (climb === null || task === null || before === null || verdict === 'none') return null;
  at.hurt = true;
  const area = nameOf(course.book, at.area);
  if (verdict === 'refer' || verdict === 'over') {
    at.afterMorning = 'refer';
    barAfterMorning(course, at);
    return referral(course, at.area, { number });
  }
  if (verdict === 'goes-on') {
    if (task.rung <= before.rung && task.why !== 'full-load') return null;
    visit(climb, before);
    climb.visit.load = before.load;
    const { name } = drillOf(course, before.drill);
    return because('15.13', 'morning-same', { drill: name });
  }
  at.afterMorning = 'back';
  barAfterMorning(course, at);
  const lower = rungFrom(course, at, Math.min(task.rung, before.rung - 1), -1);
  if (lower === null) {
    climb.ended = 'pain';
    return because('1.7', 'pain-ends-ladder', { area });
  }
  visit(climb, lower);
  return because('15.13', 'morning-back', { drill: drillOf(course, lower.drill).name });
}

/** What the morning after bars of an area. */
export function barAfterMorning(course: Course, at: AreaCourse): void {
  const { afterMorning, task } = at;
  if (afterMorning === null) return;
  at.hurt = true;
  if (afterMorning === 'refer') return refer(course, at.area);
  at.unloadedOnly = true;
  at.standInsBelow = Math.min(at.standInsBelow, task?.before?.rung ?? 0);
}

/** Rule 15.15: what the homework of an area came to; never `ready`. */
export function homeworkOutcome(at: AreaCourse): AreaOutcome {
  if (at.referred || at.climb?.ended === 'pain') return 'referred';
  return at.climb?.ended === 'dose' ? 'working' : 'unfinished';
}

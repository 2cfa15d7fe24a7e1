import { isBarredByJoined, mayLoad, type Course } from '../deciding/course';
import type { FindingTold } from '../deciding/reading';
import { say } from '../saying';
import { hasNewPain } from './barred';
import { areaName } from './wording';

/** What to mind until the next visit; what a drill itself cautions of stands with the drill. */
export function cautionsOf(
  course: Course,
  findings: readonly FindingTold[],
  isWarned: boolean,
): string[] {
  const { lines } = course.book;
  const areas = [...course.areas.values()];
  const joined = areas.some((at) => isBarredByJoined(course, at));
  const afterPain = areas.flatMap((at) => {
    const area = areaName(course.book, at.area);
    if (at.referred) return [];
    if (hasNewPain(course, at, findings)) return [say(lines, 'shown.caution-new-pain', { area })];
    if (mayLoad(course, at) || isBarredByJoined(course, at)) return [];
    return [say(lines, 'shown.caution-unloaded', { area })];
  });
  return [
    ...(isWarned ? [say(lines, 'shown.caution-warning', {})] : []),
    ...(joined ? [say(lines, 'shown.caution-joined', {})] : []),
    ...afterPain,
    ...(areas.some(({ hurt }) => hurt) ? [say(lines, 'shown.caution-pain', {})] : []),
    say(lines, course.way === 'alone' ? 'shown.caution-alone' : 'shown.caution-ready', {}),
    say(lines, 'shown.caution-medical', {}),
  ];
}

import { isBarredByJoined, mayLoad, type AreaCourse, type Course } from '../deciding/course';
import { isNew } from '../deciding/newPain';
import type { FindingTold } from '../deciding/reading';

/** Who looks before anything loaded is done in an area again, after pain; null where nobody must. */
export type WhoLooks = 'professional' | 'coach' | null;

/**
 * Whether pain in a check or drill of the area was new or sharp (rule 13.14). A kind that was not
 * said, because the session ended before, counts as new.
 */
export function hasNewPain(
  { book }: Course,
  { area }: AreaCourse,
  findings: readonly FindingTold[],
): boolean {
  return findings.some(({ check, drill, result, pain, painKind }) => {
    const at = (book.checks[check ?? ''] ?? book.drills[drill ?? ''])?.area;
    const isUntold = painKind === null && (pain === null ? result === 'pain' : pain > 0);
    return at === area && (isNew(painKind) || isUntold);
  });
}

/** Rule 12.12: what pain has barred stays barred until one who may decide has looked at it. */
export function whoLooks(
  course: Course,
  at: AreaCourse,
  findings: readonly FindingTold[],
): WhoLooks {
  if (at.referred || isBarredByJoined(course, at) || hasNewPain(course, at, findings)) {
    return 'professional';
  }
  return mayLoad(course, at) ? null : 'coach';
}

/** How an area stands in one sentence, as it is spoken when the area closes and shown after. */
import { courseOf } from '../deciding/walking';
import { findingsOf } from '../deciding/corrected';
import type { FindingTold } from '../deciding/reading';
import type { AreaState } from '../deciding/step';
import type { AreaCourse, Course } from '../deciding/course';
import type { Entry } from '../log';
import { say } from '../saying';
import type { CueBook } from '../script';
import { checkReports, courseOfArea, patternOf, type Pattern } from './areaReport';
import { hasNewPain, whoLooks } from './barred';
import { areaName } from './wording';

/** The sentence of an area from the log, for the moment it closes. Throws where it has no start. */
export function outcomeSaid(book: CueBook, entries: readonly Entry[], state: AreaState): string {
  const course = courseOf(book, entries);
  const findings = findingsOf(entries);
  const at = courseOfArea(course, state.area);
  const pattern = patternOf(course, at, checkReports(course, at, findings));
  return outcomeSentence(course, state, pattern, findings);
}

/** The same where course, pattern and findings are at hand. */
export function outcomeSentence(
  course: Course,
  state: AreaState,
  pattern: Pattern | null,
  findings: readonly FindingTold[],
): string {
  const { book } = course;
  const drill = book.drills[state.drill ?? '']?.name ?? state.drill ?? '';
  const values = { area: areaName(book, state.area), drill };
  return say(book.lines, `say.outcome-${keyOf(course, state, pattern, findings)}`, values);
}

function keyOf(
  course: Course,
  { area, outcome, drill }: AreaState,
  pattern: Pattern | null,
  findings: readonly FindingTold[],
): string {
  const at = courseOfArea(course, area);
  if (at.task !== null) return homeworkKey(at, outcome, findings);
  if (outcome === 'referred') return outcome;
  if (hasNewPain(course, at, findings)) return 'new-pain';
  if (outcome === 'ready') {
    const looks = whoLooks(course, at, findings);
    if (looks !== null) return `ready-unloaded-${looks}`;
    return course.way === 'alone' ? 'ready-alone' : outcome;
  }
  if (outcome === 'unfinished') return outcome;
  if (pattern === null) return 'came-back';
  return drill === null ? 'working-below' : outcome;
}

/** Of homework the athlete's own report, and nothing of what may be taught (rule 15.15). */
function homeworkKey(
  { climb }: AreaCourse,
  outcome: AreaState['outcome'],
  findings: readonly FindingTold[],
): string {
  if (outcome === 'referred') return 'homework-referred';
  if (outcome === 'unfinished') return outcome;
  const own = findings.filter(({ drill }) => drill === climb?.visit.drill);
  const isHeld = own.every(({ result, pain }) => result === 'held' && (pain ?? 0) === 0);
  return isHeld ? 'homework-held' : 'homework-done';
}

/** The outcome with the pattern of what failed, as it is shown. */
export function areaSentence(
  course: Course,
  state: AreaState,
  pattern: Pattern | null,
  findings: readonly FindingTold[],
): string {
  const outcome = outcomeSentence(course, state, pattern, findings);
  if (pattern === null) return outcome;
  return `${outcome} ${say(course.book.lines, `shown.${pattern}`, {})}`;
}

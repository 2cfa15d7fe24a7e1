/**
 * What to do next, as a pure function of the routine and the log. The rules are numbered in
 * RULES.md; each decision carries the number of the rule that chose it.
 */
import type { Area, AreaOutcome } from '../areas';
import type { Entry } from '../log';
import { say } from '../saying';
import type { CueBook } from '../script';
import { standing } from './checking';
import { areaAtHand, because, type AreaCourse, type Course, type Reason } from './course';
import { homeworkOutcome, morningToAsk } from './homework';
import { judge } from './hurting';
import { idOf, isPending, placeOf, stepAt } from './place';
import type { AreaState, Decision, Step } from './step';
import { courseOf } from './walking';

export { findingsOf } from './corrected';
export {
  isHalted,
  isPaused,
  live,
  openQuestion,
  undoable,
  type FindingTold,
  type OpenQuestion,
} from './reading';

/**
 * The decision after the last entry: the step to do, the rule that chose it and why, as it is
 * spoken. The same log gives the same decision. Throws where the log has no start, or where its
 * routine, a drill or a sentence is missing from the book.
 */
export function nextStep(book: CueBook, entries: readonly Entry[]): Decision {
  const course = courseOf(book, entries);
  const step = stepOf(course);
  const place = placeOf(course);
  const isStopping = course.ended === null && course.halted;
  const reason = isStopping ? because('7.1', 'halted') : course.reason;
  const isEnd = step.do === 'end';
  return {
    step,
    rule: reason.rule,
    because: sentences(book, [...(isStopping ? [] : course.also), reason]),
    then: course.then === null || isStopping || isEnd ? null : sentenceOf(book, course.then),
    area: reason.area ?? (isEnd ? null : (place?.at.area ?? null)),
    from: isStopping ? idOf(place) : course.from,
    to: isEnd ? null : idOf(place),
    by: reason.by,
  };
}

const sentences = (book: CueBook, reasons: readonly Reason[]): string =>
  reasons.map((reason) => sentenceOf(book, reason)).join(' ');

const sentenceOf = ({ lines }: CueBook, { key, values }: Reason): string =>
  capital(say(lines, `because.${key}`, values));

/** A sentence may begin with the name of a drill. */
const capital = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1);

function stepOf(course: Course): Step {
  if (course.ended !== null) return { do: 'end', reason: course.ended };
  const place = placeOf(course);
  const area = place?.at.area ?? null;
  if (course.halted) return { do: 'ask', prompt: 'confirm', about: 'end-session', area };
  if (course.pain !== null) {
    return judge(course, course.pain) === 'number'
      ? { do: 'ask', prompt: 'pain/how-much', about: 'pain-number', area }
      : { do: 'ask', prompt: 'pain/kind', about: 'pain-kind', area };
  }
  const morning = morningToAsk(course);
  if (morning !== null) {
    const { area: of, asks, daysAgo } = morning;
    return asks === 'kind'
      ? { do: 'ask', prompt: 'pain/kind', about: 'pain-kind', area: of }
      : { do: 'ask', prompt: 'pain/how-much', about: 'pain-morning', area: of, daysAgo };
  }
  return place === null ? { do: 'end', reason: 'completed' } : stepAt(course, place);
}

/** How each area of the routine stands; `unfinished` until its end is reached. */
export function areaStates(book: CueBook, entries: readonly Entry[]): AreaState[] {
  const course = courseOf(book, entries);
  return [...course.areas.values()].map((at) => ({
    area: at.area,
    outcome: outcomeOf(course, at),
    rung: at.climb?.lastHeld ?? null,
    drill: at.climb?.lastHeldDrill ?? null,
  }));
}

/** Chapter 12. */
function outcomeOf(course: Course, at: AreaCourse): AreaOutcome {
  if (at.referred) return 'referred';
  const left = course.routine.items.slice(course.item);
  const isOpen = course.pain !== null || course.focus !== null;
  if (
    (isOpen && areaAtHand(course) === at) ||
    left.some((item) => item.area === at.area && isPending(course, item))
  ) {
    return 'unfinished';
  }
  if (at.task !== null) return homeworkOutcome(at);
  const stands = standing(at);
  if (stands === 'held') return 'ready';
  return stands === 'failed' && at.climb !== null ? 'working' : 'unfinished';
}

/** The areas that each family of lifts needs; common practice, no source. */
export const LIFTS: Readonly<Record<string, readonly Area[]>> = {
  pulls: ['hinge'],
  'front-squat': ['squat'],
  clean: ['squat', 'hinge'],
  press: ['overhead'],
  jerk: ['overhead', 'squat'],
  snatch: ['overhead', 'squat', 'hinge'],
  'overhead-squat': ['overhead', 'squat', 'hinge'],
};

/** The families of lifts that are ready to be taught: every area they need is `ready`. */
export function liftsReady(states: readonly AreaState[]): string[] {
  const ready = states.filter(({ outcome }) => outcome === 'ready').map(({ area }) => area);
  return Object.entries(LIFTS)
    .filter(([, areas]) => areas.every((area) => ready.includes(area)))
    .map(([lift]) => lift);
}

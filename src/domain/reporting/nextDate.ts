import type { Area, AreaOutcome } from '../areas';
import { dateAfter } from '../people/dateAfter';
import { say } from '../saying';
import type { CueBook } from '../script';
import { areasIn } from './wording';

/** Days until the next visit; common practice, no source (RULES.md, 13.9 to 13.11). */
export const NEXT_VISIT_DAYS = { unfinished: 1, working: 7, ready: 28 } as const;

/** When to come again. */
export interface NextVisit {
  /** ISO calendar date, such as 2031-03-08, or null where somebody must decide first. */
  date: string | null;
  rule: string;
  because: string;
}

const ORDER = ['unfinished', 'working', 'ready'] as const;
const RULES = { unfinished: '13.10', working: '13.9', ready: '13.11' } as const;

/** How an area stands; one that waits for a licensed professional has no date (rule 13.12). */
export interface AreaToCome {
  area: Area;
  outcome: AreaOutcome;
  waits: boolean;
}

/** The suggested next date: that of the area that comes first, leaving out those that wait. */
export function nextVisitOf(
  book: CueBook,
  states: readonly AreaToCome[],
  startedAt: string,
  { endedOnWarning, hasHomework }: { endedOnWarning: boolean; hasHomework: boolean },
): NextVisit {
  const of = (outcome: AreaOutcome) =>
    states.filter((state) => !state.waits && state.outcome === outcome).map(({ area }) => area);
  if (endedOnWarning) {
    return { date: null, rule: '13.8', because: say(book.lines, 'shown.next-warning', {}) };
  }
  const first = ORDER.find((outcome) => of(outcome).length > 0);
  const waiting = states.filter(({ waits }) => waits).map(({ area }) => area);
  if (first === undefined) {
    return { date: null, rule: '13.12', because: say(book.lines, 'shown.next-referred', {}) };
  }
  const isPlain = first === 'working' ? hasHomework : first !== 'ready' || waiting.length === 0;
  const key = isPlain ? first : first === 'working' ? 'working-none' : 'ready-but';
  const because = say(book.lines, `shown.next-${key}`, { areas: areasIn(book, of(first)) });
  const waits = say(book.lines, 'shown.next-waits', { areas: areasIn(book, waiting) });
  return {
    date: dateAfter(startedAt, NEXT_VISIT_DAYS[first]),
    rule: RULES[first],
    because: waiting.length === 0 ? because : `${because} ${waits}`,
  };
}

/** Rule 15.10: homework is done again from the next day on, where anything of it is left. */
export function nextHomeworkOf(
  { lines }: CueBook,
  states: readonly AreaToCome[],
  startedAt: string,
): NextVisit {
  const isLeft = states.some(({ waits }) => !waits);
  const because = say(lines, `shown.next-homework${isLeft ? '' : '-none'}`, {});
  return { date: isLeft ? dateAfter(startedAt, 1) : null, rule: '15.10', because };
}

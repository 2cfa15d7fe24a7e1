/** What is open for a person now, from what their sessions left. */
import { AREAS, type Area, type AreaOutcome } from '../areas';
import { NEXT_VISIT_DAYS } from '../reporting/nextDate';
import { dateAfter } from './dateAfter';
import { HOMEWORK } from '../handover/progressDay';
import type { CueBook } from '../script';
import type { AreaLeft, SessionLeft } from './left';

/** How an area of a person stands now. */
export interface OpenArea {
  outcome: AreaOutcome;
  /** Last rung held; 0 is below rung 1; null where no ladder was climbed. */
  rung: number | null;
  /** The session that says so. */
  session: string;
  /** ISO date on which that session began, where it was held. */
  on: string;
  /** A licensed professional decides first: referred, after a warning sign, or new or sharp pain. */
  waits: boolean;
  /** ISO date from which it is due again; null where it waits. */
  dueOn: string | null;
  /** That date has come. */
  isDue: boolean;
}

/** Each area, or null where no session has an outcome for it. */
export type Open = Record<Area, OpenArea | null>;

/**
 * What is open for one person by their sessions, in any order, on the calendar date `today` (ISO):
 * each area by the newest session that has an outcome for it (rule 13.15). Dates are of the area
 * alone: 13.9 to 13.11. Homework that an athlete reported counts only where a professional is to
 * decide after it: it moves no date, and what a coach found stands.
 *
 * @example openFor(book, sessions, '2031-03-08').hinge?.isDue
 */
export function openFor(book: CueBook, sessions: readonly SessionLeft[], today: string): Open {
  const newest = [...sessions].sort(
    (one, other) => Date.parse(other.head.startedAt) - Date.parse(one.head.startedAt),
  );
  const open: Open = { overhead: null, squat: null, hinge: null };
  for (const area of AREAS) {
    for (const session of newest) {
      const left = session.areas.find((one) => one.area === area);
      if (left === undefined) continue;
      const stands = openArea(book, session, left, today);
      if (session.head.routine === HOMEWORK && !stands.waits) continue;
      open[area] = stands;
      break;
    }
  }
  return open;
}

/** `openFor` for each person that has a session, by the person's id. */
export function openByPerson(
  book: CueBook,
  sessions: readonly SessionLeft[],
  today: string,
): Map<string, Open> {
  const theirs = new Map<string, SessionLeft[]>();
  for (const session of sessions) {
    const { person } = session.head;
    if (person !== null) theirs.set(person, [...(theirs.get(person) ?? []), session]);
  }
  return new Map([...theirs].map(([person, own]) => [person, openFor(book, own, today)]));
}

function openArea(
  book: CueBook,
  session: SessionLeft,
  { area, outcome, rung }: AreaLeft,
  today: string,
): OpenArea {
  const { session: name, startedAt } = session.head;
  const waits = outcome === 'referred' || session.isWarned || hasNewPain(book, session, area);
  const dueOn = waits ? null : dateAfter(startedAt, NEXT_VISIT_DAYS[outcome]);
  return {
    ...{ outcome, rung, session: name, on: startedAt.slice(0, 10), waits, dueOn },
    isDue: dueOn !== null && dueOn <= today,
  };
}

/** Where it is not known of which area the painful check or drill is, it counts for each. */
const hasNewPain = (book: CueBook, { newPainAt }: SessionLeft, area: Area): boolean =>
  newPainAt.some((id) => {
    const at = book.checks[id]?.area ?? book.drills[id]?.area;
    return at === undefined || at === area;
  });

import { LIFTS } from '../deciding/deciding';
import type { Entry } from '../log';
import { say } from '../saying';
import type { CueBook } from '../script';
import { outcomeOf } from './report';
import { liftName, listed } from './wording';

/**
 * What is said at the end of a completed session besides the outcomes: the lifts that may be
 * taught next (alone: that a coach should see first, rule 12.13) and the drills of the homework,
 * each one sentence under ten seconds. In a group nothing is said of a person.
 */
export function closingWords(book: CueBook, entries: readonly Entry[]): string[] {
  if (entries.some((entry) => entry.type === 'started' && entry.way === 'group')) return [];
  const { liftsReady, homework, reportedBy } = outcomeOf(book, entries);
  const lifts = listed(
    book,
    liftsReady.map((lift) => liftName(book, lift)),
  );
  const drills = listed(
    book,
    homework.map(({ name }) => name),
  );
  const next = reportedBy === 'athlete' ? 'show' : 'ready';
  const isAll = liftsReady.length === Object.keys(LIFTS).length;
  return [
    ...(isAll ? [say(book.lines, `say.${next}-all`, {})] : []),
    ...(lifts !== '' && !isAll ? [say(book.lines, `say.${next}-areas`, { lifts })] : []),
    ...(drills === '' ? [] : [say(book.lines, 'say.homework', { drills })]),
  ];
}

import type { Area } from '../areas';
import { LIFTS } from '../deciding/deciding';
import { homeworkIn } from '../handover/progressDay';
import { numberSpoken } from '../hearing/numbers';
import type { Entry } from '../log';
import { say } from '../saying';
import type { CueBook } from '../script';
import { outcomeOf, reportOf } from './report';
import type { Angle } from './measured';
import { liftName, listed, titled } from './wording';

/**
 * What is said at the end of a completed session besides the outcomes: the lifts that may be
 * taught next (alone: that a coach should see first, rule 12.13) and the drills of the homework,
 * each one sentence under ten seconds. In a group nothing is said of a person.
 */
export function closingWords(book: CueBook, entries: readonly Entry[]): string[] {
  if (entries.some((entry) => entry.type === 'started' && entry.way === 'group')) return [];
  const { liftsReady, homework, reportedBy, nextDate } = outcomeOf(book, entries);
  if (homeworkIn(entries) !== undefined) {
    return nextDate === null ? [] : [say(book.lines, 'say.homework-next', {})];
  }
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

/**
 * What the retest of an area changed, one short sentence a side, where its tool and test can tell:
 * "Left, from one twenty to one sixty: better." What may only be noted is on the screen alone.
 */
export function changeWords(book: CueBook, entries: readonly Entry[], area: Area): string[] {
  const { lines, vocabulary } = book;
  const degrees = (angle: Angle) => numberSpoken(vocabulary.numbers, angle.degrees);
  return reportOf(book, entries)
    .measured.filter((one) => one.area === area)
    .flatMap(({ sides }) =>
      sides.flatMap(({ side, first, retest, change }) => {
        if (first === null || retest === null || change?.mayBeCalled !== true) return [];
        const key = `say.change-${change.verdict}`;
        const said = say(lines, key, { before: degrees(first), now: degrees(retest) });
        return [titled(side === null ? said : `${vocabulary.sides[side].readback}, ${said}`)];
      }),
    );
}

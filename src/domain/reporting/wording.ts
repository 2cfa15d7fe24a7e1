/** Words of the report; every sentence itself is data (outcome.yaml). */
import type { Area, Side } from '../areas';
import type { AreaState } from '../deciding/step';
import { say } from '../saying';
import type { CueBook } from '../script';
import { standing, type CheckReport, type Given } from './areaReport';

/** With a capital, as a sentence or title begins. */
export const titled = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The area as spoken inside a sentence. */
export const areaName = (book: CueBook, area: Area): string => book.lines[`area.${area}`] ?? area;

/** The family of lifts as spoken inside a sentence. */
export const liftName = (book: CueBook, lift: string): string => book.lines[`lift.${lift}`] ?? lift;

/** Several areas as one list: "squat and hinge". */
export const areasIn = (book: CueBook, areas: readonly Area[]): string =>
  listed(
    book,
    areas.map((area) => areaName(book, area)),
  );

/** "one", "one and two", "one, two and three". */
export function listed(book: CueBook, words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  if (words.length < 2) return last;
  return say(book.lines, 'shown.and', { first: words.slice(0, -1).join(', '), last });
}

/** Where an area is worked at: "working at the goblet squat". */
export const workingAt = (book: CueBook, { drill }: AreaState): string =>
  drill === null
    ? say(book.lines, 'shown.working-below', {})
    : say(book.lines, 'shown.working-at', { drill: book.drills[drill]?.name ?? drill });

/** What failed, what came back and what was not tested, a sentence each. */
export function reasonsOf(book: CueBook, reports: readonly CheckReport[]): string[] {
  return reports.flatMap((report) => {
    const what = titled(whatOf(book, report));
    const { first, retest, stands, notTested, notRetested } = report;
    const last = standing(report);
    if (notTested !== null) return [say(book.lines, `shown.not-tested-${notTested}`, { what })];
    if (last === null) return [];
    if (stands === 'held') {
      return isFail(first) && retest !== null ? [say(book.lines, 'shown.regained', { what })] : [];
    }
    const values = { what, how: howOf(book, last) };
    const isAgain = retest !== null && retest.result !== 'not-tested' && isFail(first);
    const both = reports.some((one) => one.check === report.check && one !== report && isBad(one));
    const key = isAgain ? 'shown.failed-again' : 'shown.failed';
    const failed = say(book.lines, key, values);
    const worse = both && report.isWorstSide && !areEqual(reports, report);
    return [
      worse ? `${failed} ${say(book.lines, 'shown.worse-side', {})}` : failed,
      ...(notRetested === null
        ? []
        : [say(book.lines, `shown.not-retested-${notRetested}`, { what })]),
    ];
  });
}

const isBad = ({ stands }: CheckReport): boolean => stands === 'failed';
const isFail = (given: Given | null): boolean => given !== null && given.result !== 'held';

/** Both sides are as bad as each other. */
const areEqual = (reports: readonly CheckReport[], { check }: CheckReport): boolean =>
  reports.filter((one) => one.check === check && one.isWorstSide).length > 1;

/** "the lifted arm, left". */
const whatOf = (book: CueBook, { check, side }: CheckReport): string => {
  const name = book.checks[check]?.name ?? check;
  return side === null ? name : `${name}, ${sideName(book, side)}`;
};

const sideName = (book: CueBook, side: Side): string => say(book.lines, `shown.side-${side}`, {});

/** "position given up (ribs flared; 140 degrees by eye)". */
function howOf(book: CueBook, given: Given): string {
  const { result, faults, angleDegrees, tool, pain, painKind } = given;
  const named = faults.map((id) => book.faults[id]?.readback ?? id).join(', ');
  const details = [
    named,
    angleDegrees === null
      ? ''
      : say(book.lines, 'shown.angle', {
          degrees: angleDegrees,
          tool: say(book.lines, `shown.tool-${tool ?? 'eye'}`, {}),
        }),
    pain === null ? '' : say(book.lines, 'shown.pain-of-ten', { pain }),
    painKind === null ? '' : say(book.lines, `shown.pain-${painKind}`, {}),
  ].filter((part) => part !== '');
  const word = say(book.lines, `shown.result-${result}`, {});
  return details.length === 0
    ? word
    : say(book.lines, 'shown.how', { word, details: details.join('; ') });
}

/** The angles in words; every sentence itself is data (outcome.yaml). */
import type { AngleTool } from '../findings';
import { say } from '../saying';
import type { CueBook } from '../script';
import type {
  Angle,
  AngleChange,
  CheckMeasured,
  NormContext,
  SideMeasured,
  Sourced,
} from './measured';

/** An angle or a difference in words, and what it says: "Left: 140, then 152 degrees by eye." */
export interface AngleTold {
  what: string;
  /** Empty where there is nothing to hold it against. */
  says: string;
}

/** What the angles of one check say, side by side, then the difference of the sides. */
export const anglesTold = (
  book: CueBook,
  { sides, sideDifference }: CheckMeasured,
): AngleTold[] => [
  ...sides.flatMap((side) => {
    const told = sideTold(book, side);
    return told === null ? [] : [told];
  }),
  ...differenceTold(book, sideDifference),
];

/** Every figure that those sentences lean on, with its source and how far it was checked. */
export function sourceSentences(book: CueBook, { sides, sideDifference }: CheckMeasured): string[] {
  const isTold = sideDifference !== null && sideDifference.verdict !== 'none';
  const figures: (Sourced | null)[] = [
    ...sides.map(({ change }) => change?.mdc ?? null),
    ...sides.map(({ norm }) => norm),
    isTold ? sideDifference : null,
  ];
  const told = figures
    .filter((figure) => figure !== null)
    .map(({ source, status }) => say(book.lines, `shown.source-${status}`, { source }));
  return [...new Set(told)];
}

function sideTold(book: CueBook, measured: SideMeasured): AngleTold | null {
  const { side, first, retest, stands, change, passLine, norm } = measured;
  const who = say(book.lines, `shown.angle-of-${side ?? 'none'}`, {});
  const only = retest ?? first;
  if (only === null) return null;
  const told =
    first !== null && retest !== null && change !== null
      ? changeTold(book, 'angle-change', { who, before: first, now: retest, change })
      : {
          what: say(book.lines, `shown.angle-${stands === null ? 'first' : 'one'}`, {
            who,
            degrees: only.degrees,
            tool: toolName(book, only.tool),
          }),
          says: '',
        };
  const says = [
    told.says,
    ...(passLine === null
      ? []
      : [say(book.lines, `shown.line-${passLine.verdict}`, { line: passLine.degrees })]),
    ...(norm === null ? [] : [normSentence(book, norm)]),
  ];
  return { what: told.what, says: says.filter((one) => one !== '').join(' ') };
}

/** A change in words: beyond the error, within it, only noted, or not to be compared. */
export function changeTold(
  book: CueBook,
  key: 'angle-change' | 'angle-since',
  { who, before, now, change }: { who: string; before: Angle; now: Angle; change: AngleChange },
): AngleTold {
  const { verdict, mayBeCalled, mdc, why } = change;
  const isNoted = (verdict === 'better' || verdict === 'worse') && !mayBeCalled;
  const isByEye = verdict === 'within-error' && now.tool === 'eye';
  const how = isNoted ? 'noted' : isByEye ? 'within-error-eye' : (why ?? verdict);
  const says = say(book.lines, `shown.change-${how}`, {
    mdc: mdc?.degrees ?? '',
  });
  const what = say(book.lines, `shown.${key}`, {
    who,
    before:
      why === 'other-tool'
        ? say(book.lines, 'shown.angle-by', {
            degrees: before.degrees,
            tool: toolName(book, before.tool),
          })
        : before.degrees,
    now: now.degrees,
    tool: toolName(book, now.tool),
  });
  return { what, says };
}

function differenceTold(book: CueBook, found: CheckMeasured['sideDifference']): AngleTold[] {
  if (found === null || found.verdict === 'none') return [];
  const { verdict, degrees, lower, tool } = found;
  const key = verdict === 'noted' && tool === 'eye' ? 'noted-eye' : verdict;
  const side = say(book.lines, `shown.side-${lower ?? 'left'}`, {});
  const what = say(book.lines, 'shown.sides-differ', { degrees, side });
  return [{ what, says: say(book.lines, `shown.sides-${key}`, {}) }];
}

const normSentence = (book: CueBook, { from, below, sex }: NormContext): string =>
  say(book.lines, `shown.norm-${from ?? 'under'}-${below ?? 'over'}`, {
    people: say(book.lines, `shown.people-${sex}`, {}),
  });

const toolName = (book: CueBook, tool: AngleTool): string =>
  say(book.lines, `shown.tool-${tool}`, {});

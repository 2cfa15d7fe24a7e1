import type { Area, Side } from '../areas';
import type { FindingTold } from '../deciding/reading';
import type { FaultId } from '../faults';
import type { Load, PainKind, Result } from '../findings';
import type { CueBook, DrillId } from '../script';

/** What was said of one side of a set, or of the whole set (side null). */
export interface SetSide {
  side: Side | 'both' | null;
  result: Result;
  faults: FaultId[];
  /** 0 to 10, or null where no number was said. */
  pain: number | null;
  painKind: PainKind | 'unanswered' | null;
}

/** One stay on a rung, with its sets in the order they were done. */
export interface RungReport {
  /** From 1; 0 where the drill stands on no rung of this book. */
  rung: number;
  drill: DrillId;
  sets: { load: Load | null; sides: SetSide[] }[];
}

/** The way up and down the ladder of an area, as its sets were graded. */
export function ladderHistory(
  book: CueBook,
  area: Area,
  findings: readonly FindingTold[],
): RungReport[] {
  const history: RungReport[] = [];
  for (const { drill, load, side, result, faults, pain, painKind } of findings) {
    if (drill === null || book.drills[drill]?.area !== area) continue;
    const said: SetSide = { side, result, faults, pain, painKind };
    let stay = history.at(-1);
    if (stay?.drill !== drill) {
      stay = { rung: rungIn(book, area, drill), drill, sets: [] };
      history.push(stay);
    }
    const set = stay.sets.at(-1);
    const isSameSet = set !== undefined && isOtherSide(set.sides, side);
    if (isSameSet) set.sides.push(said);
    else stay.sets.push({ load, sides: [said] });
  }
  return history;
}

const rungIn = (book: CueBook, area: Area, drill: DrillId): number =>
  1 +
  (book.ladders[area]?.rungs ?? []).findIndex(
    (rung) => rung.drill === drill || rung.alternates?.includes(drill),
  );

/** Left and right, in either order, are one set. */
const isOtherSide = (sides: SetSide[], side: Side | 'both' | null): boolean =>
  sides.length === 1 &&
  ((sides[0]?.side === 'left' && side === 'right') ||
    (sides[0]?.side === 'right' && side === 'left'));

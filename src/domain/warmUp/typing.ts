/** Blocks as they are typed: "wall hinge 30 15". */
import type { CueBook, DrillScript } from '../script';

export interface BlockTyped {
  /** Every drill that it may be, in the order of the book. */
  drills: DrillScript[];
  /** Null where they were not typed; not yet held to what may be. */
  workSeconds: number | null;
  changeSeconds: number | null;
}

const NUMBERS = /\s+(\d+)(?:[\s,/]+(\d+))?\s*s?$/u;

/**
 * What a typed block may be: words of the name of a drill, in any order and not whole, then seconds
 * of work and seconds to change. Nothing typed may be any drill.
 */
export function blockTyped(book: CueBook, typed: string): BlockTyped {
  const [numbers = '', work, change] = NUMBERS.exec(typed) ?? [];
  const words = typed
    .slice(0, typed.length - numbers.length)
    .toLowerCase()
    .split(/[\s-]+/u)
    .filter((word) => word !== '');
  return {
    drills: Object.values(book.drills).filter(({ name }) => {
      const named = name.toLowerCase();
      return words.every((word) => named.includes(word));
    }),
    workSeconds: work === undefined ? null : Number(work),
    changeSeconds: change === undefined ? null : Number(change),
  };
}

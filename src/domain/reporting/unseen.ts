import type { Side } from '../areas';
import { slotsOf } from '../deciding/checking';
import { courseOf } from '../deciding/walking';
import type { Entry } from '../log';
import type { CheckId, CueBook } from '../script';

/** A side of a check that is held by a correction alone, and has to be tested again (rule 14.4). */
export interface Unseen {
  check: CheckId;
  side: Side | null;
}

/** Each of them. Throws where the log has no start or its routine is not in the book. */
export const unseenIn = (book: CueBook, entries: readonly Entry[]): Unseen[] =>
  [...courseOf(book, entries).areas.values()].flatMap(({ all, checks, retests }) =>
    all
      .flatMap(slotsOf)
      .filter(
        ({ key }) =>
          checks.get(key)?.answer?.isUnseen === true && retests.get(key)?.answer?.result !== 'held',
      )
      .map(({ check, side }) => ({ check, side })),
  );

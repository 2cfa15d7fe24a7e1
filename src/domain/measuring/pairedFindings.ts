import type { Side } from '../areas';
import { RESULTS, type Result } from '../findings';
import type { CheckId } from '../script';
import type { AgreementTable } from './agreement';

/** A finding of one coach; a finding of the log is one. */
export interface CoachFinding {
  check: CheckId | null;
  side: Side | 'both' | null;
  result: Result;
}

/**
 * From held to pain, in the order of RESULTS: a position given up weighs less than a range that is
 * not there, since it starts higher on the ladder (common practice, no source).
 */
export const ORDERED_RESULTS: readonly Result[] = RESULTS.filter(
  (result) => result !== 'not-tested',
);

/**
 * What two coaches found of the same checks and sides, as a table over ORDERED_RESULTS (rows: the
 * first coach). "Both" is a finding a side; a later finding replaces an earlier one; what either of
 * them did not test is left out, as are drills.
 */
export function agreementTable(
  one: readonly CoachFinding[],
  other: readonly CoachFinding[],
): AgreementTable {
  const seenByOther = resultsOf(other);
  const table = ORDERED_RESULTS.map(() => ORDERED_RESULTS.map(() => 0));
  for (const [slot, result] of resultsOf(one)) {
    const row = table[ORDERED_RESULTS.indexOf(result)];
    const column = ORDERED_RESULTS.indexOf(seenByOther.get(slot) ?? 'not-tested');
    if (row !== undefined && column >= 0) row[column] = (row[column] ?? 0) + 1;
  }
  return table;
}

/** The last result of each check and side. */
function resultsOf(findings: readonly CoachFinding[]): Map<string, Result> {
  const sidesOf = (side: CoachFinding['side']) => (side === 'both' ? ['left', 'right'] : [side]);
  return new Map(
    findings
      .filter(({ check }) => check !== null)
      .flatMap(({ check, side, result }) =>
        sidesOf(side).map((each): [string, Result] => [`${check} ${each}`, result]),
      ),
  );
}

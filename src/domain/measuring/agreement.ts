/** How far two coaches agree beyond chance. */
export interface Agreement {
  /** 1: always the same; 0: no more than chance; never under -1. */
  kappa: number;
  /** Share of agreement seen, and expected by chance: 0 to 1, in part where it is weighted. */
  observed: number;
  expected: number;
  /** Pairs of findings. */
  pairs: number;
}

/** Counts: a row for each answer of the one coach, a column for each of the other, in one order. */
export type AgreementTable = readonly (readonly number[])[];

/**
 * Cohen's kappa of a square table of counts (Cohen 1960). Throws RangeError where the table is
 * not square, holds anything but counts, is empty, or has both coaches at one answer throughout.
 *
 * @example agreement([[50, 10], [10, 20]]).kappa // 0.5
 */
export const agreement = (table: AgreementTable): Agreement =>
  agreementBy(table, (row, column) => (row === column ? 1 : 0));

/**
 * Kappa for answers in order, which counts neighbours as part agreement: weights 1 - |i - j| /
 * (k - 1), linear. Throws as `agreement` does.
 */
export const weightedAgreement = (table: AgreementTable): Agreement =>
  agreementBy(table, (row, column) => 1 - Math.abs(row - column) / (table.length - 1));

function agreementBy(
  table: AgreementTable,
  weight: (row: number, column: number) => number,
): Agreement {
  mustBeTable(table);
  const rows = table.map(sum);
  const columns = table.map((_, column) => sum(table.map((row) => row[column] ?? 0)));
  const pairs = sum(rows);
  if (pairs === 0)
    throw new RangeError('The table is empty: two coaches must see one check first.');
  if (rows.some((row, at) => row === pairs && columns[at] === pairs)) {
    throw new RangeError(
      'Both coaches gave one and the same answer throughout, so agreement beyond chance cannot be told: show the counts.',
    );
  }
  const weighted = (share: (row: number, column: number) => number) =>
    sum(
      rows.flatMap((_, row) =>
        columns.map((__, column) => weight(row, column) * share(row, column)),
      ),
    );
  const observed = weighted((row, column) => (table[row]?.[column] ?? 0) / pairs);
  const expected = weighted(
    (row, column) => ((rows[row] ?? 0) / pairs) * ((columns[column] ?? 0) / pairs),
  );
  return { kappa: (observed - expected) / (1 - expected), observed, expected, pairs };
}

function mustBeTable(table: AgreementTable): void {
  const size = table.length;
  const odd = table.findIndex((row) => row.length !== size);
  if (odd >= 0) {
    throw new RangeError(
      `The table is not square: ${size} rows, but row ${odd + 1} has ${table[odd]?.length} columns. Give one row and one column for each answer.`,
    );
  }
  const wrong = table.flat().find((count) => !(Number.isInteger(count) && count >= 0));
  if (wrong !== undefined) {
    throw new RangeError(`The table holds ${wrong}: give whole counts of 0 or more.`);
  }
}

const sum = (numbers: readonly number[]): number =>
  numbers.reduce((total, number) => total + number, 0);

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  agreement,
  weightedAgreement,
  type AgreementTable,
} from '../../../src/domain/measuring/agreement';
import { agreementTable, type CoachFinding } from '../../../src/domain/measuring/pairedFindings';

const turned = (table: AgreementTable) =>
  table.map((_, row) => table.map((columns) => columns[row] ?? 0));

/** Tables that kappa is defined for. */
const tables = fc
  .integer({ min: 2, max: 5 })
  .chain((size) =>
    fc.array(fc.array(fc.nat(30), { minLength: size, maxLength: size }), {
      minLength: size,
      maxLength: size,
    }),
  )
  .filter((table) => {
    const cells = table.flat().filter((count) => count > 0);
    const isOneCell = cells.length === 1 && table.some((row, at) => (row[at] ?? 0) > 0);
    return cells.length > 0 && !isOneCell;
  });

describe.each([
  ['kappa', agreement],
  ['weighted kappa', weightedAgreement],
])('%s', (_, of) => {
  it('lies from -1 to 1, and is the same whoever comes first', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const { kappa } = of(table);
        expect(kappa).toBeGreaterThanOrEqual(-1 - 1e-12);
        expect(kappa).toBeLessThanOrEqual(1);
        expect(of(turned(table)).kappa).toBeCloseTo(kappa, 10);
      }),
    );
  });

  it('is 1 where both always agree, 0 where rows say nothing of columns', () => {
    expect(
      of([
        [7, 0, 0],
        [0, 3, 0],
        [0, 0, 5],
      ]).kappa,
    ).toBe(1);
    expect(
      of([
        [8, 4],
        [4, 2],
      ]).kappa,
    ).toBeCloseTo(0, 12);
    expect(
      of([
        [0, 5],
        [5, 0],
      ]).kappa,
    ).toBe(-1);
  });

  it('is told, and 0, where only one coach gave one answer throughout', () => {
    const { kappa, observed, expected, pairs } = of([
      [5, 3],
      [0, 0],
    ]);
    expect({ kappa, observed, expected, pairs }).toEqual({
      kappa: 0,
      observed: 5 / 8,
      expected: 5 / 8,
      pairs: 8,
    });
  });

  it.each<[string, AgreementTable, RegExp]>([
    [
      'is not square',
      [
        [1, 2, 3],
        [4, 5, 6],
      ],
      /not square: 2 rows, but row 1 has 3 columns/,
    ],
    ['lacks a cell', [[1, 2], [3]], /row 2 has 1 columns/],
    [
      'holds less than nothing',
      [
        [4, -1],
        [2, 3],
      ],
      /holds -1: give whole counts/,
    ],
    [
      'holds a part of a count',
      [
        [4, 0.5],
        [2, 3],
      ],
      /holds 0.5/,
    ],
    [
      'holds no number',
      [
        [4, NaN],
        [2, 3],
      ],
      /holds NaN/,
    ],
    ['has no rows', [], /empty/],
    [
      'has nothing in it',
      [
        [0, 0],
        [0, 0],
      ],
      /empty/,
    ],
    ['has one answer only', [[9]], /one and the same answer/],
    [
      'has one answer throughout',
      [
        [0, 0],
        [0, 12],
      ],
      /one and the same answer.*show the counts/,
    ],
  ])('refuses a table that %s', (__, table, message) => {
    expect(() => of(table)).toThrow(RangeError);
    expect(() => of(table)).toThrow(message);
  });
});

it('of three answers in order, neighbours agree by half, the far ends not at all', () => {
  const { observed } = weightedAgreement([
    [0, 4, 0],
    [0, 0, 0],
    [4, 0, 0],
  ]);
  expect(observed).toBe(0.25);
});

describe('two coaches and their findings', () => {
  const found = (
    check: string | null,
    side: CoachFinding['side'],
    result: CoachFinding['result'],
  ): CoachFinding => ({ check, side, result });

  it('are paired by check and side: later replaces earlier, "both" is a side each', () => {
    const one = [
      found('overhead-passive', 'left', 'lost'),
      found('overhead-passive', 'right', 'held'),
      found('overhead-passive', 'left', 'short'),
      found('squat-bodyweight', null, 'held'),
      found('hinge-unloaded', null, 'pain'),
    ];
    const other = [
      found('squat-bodyweight', null, 'lost'),
      found('overhead-passive', 'both', 'short'),
      found('hinge-unloaded', null, 'pain'),
    ];
    // Rows and columns: held, lost, short, pain.
    expect(agreementTable(one, other)).toEqual([
      [0, 1, 1, 0],
      [0, 0, 0, 0],
      [0, 0, 1, 0],
      [0, 0, 0, 1],
    ]);
  });

  it('leave out drills, and what either did not see', () => {
    const one = [
      found('hinge-bar', null, 'not-tested'),
      found('squat-bodyweight', null, 'held'),
      found('hinge-unloaded', null, 'held'),
      found(null, null, 'held'),
    ];
    const other = [
      found('hinge-bar', null, 'held'),
      found('squat-bodyweight', null, 'not-tested'),
      found(null, null, 'held'),
    ];
    expect(
      agreementTable(one, other)
        .flat()
        .every((count) => count === 0),
    ).toBe(true);
  });

  it('weigh a neighbour in the order less than a far answer', () => {
    const one = ['held', 'lost', 'short', 'pain'] as const;
    const seen = (results: readonly CoachFinding['result'][]) =>
      results.map((result, at) => found(`check-${at}`, null, result));
    const near = agreementTable(seen(one), seen(['held', 'lost', 'short', 'short']));
    const far = agreementTable(seen(one), seen(['held', 'lost', 'short', 'held']));
    expect(agreement(near).observed).toBe(agreement(far).observed);
    expect(weightedAgreement(near).kappa).toBeGreaterThan(weightedAgreement(far).kappa);
  });
});

import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import {
  agreement,
  weightedAgreement,
  type AgreementTable,
} from '../../src/domain/measuring/agreement';

/**
 * Kappa by another way, from single pairs and the means of jstat: 1 less the disagreement seen over
 * that of everybody's answers paired with everybody's, where disagreement is 0 or 1, or the
 * distance between the answers.
 */
function byDisagreement(table: AgreementTable, distance: (i: number, j: number) => number): number {
  const pairs = table.flatMap((row, i) =>
    row.flatMap((count, j) => Array.from({ length: count }, () => [i, j] as const)),
  );
  const seen = jstat.mean(pairs.map(([i, j]) => distance(i, j)));
  const byChance = jstat.mean(pairs.flatMap(([i]) => pairs.map(([, j]) => distance(i, j))));
  return 1 - seen / byChance;
}

const unlike = (i: number, j: number) => (i === j ? 0 : 1);
const apart = (i: number, j: number) => Math.abs(i - j);

/** SAS/STAT user's guide, FREQ procedure, example of agreement: two raters, 88 patients. */
const DERMATOLOGISTS = [
  [10, 4, 1, 0],
  [5, 10, 12, 2],
  [2, 4, 12, 5],
  [0, 2, 6, 13],
];

describe('kappa', () => {
  it('SAS FREQ example: .3449', () => {
    expect(agreement(DERMATOLOGISTS).kappa).toBeCloseTo(0.3449, 4);
  });

  it('[50, 10; 10, 20] is .500 (arithmetic: .7778 seen, .5556 by chance)', () => {
    const { kappa, observed, expected } = agreement([
      [50, 10],
      [10, 20],
    ]);
    expect(observed).toBeCloseTo(70 / 90, 12);
    expect(expected).toBeCloseTo(5 / 9, 12);
    expect(kappa).toBeCloseTo(0.5, 12);
  });

  it('[22, 2; 4, 11] is .667: the arithmetic; that Sim and Wright 2005 print it is from memory', () => {
    const { kappa } = agreement([
      [22, 2],
      [4, 11],
    ]);
    expect(kappa).toBeCloseTo(0.667, 3);
    // 33 of 39 seen, (24 x 26 + 15 x 13) / 39² by chance.
    expect(kappa).toBeCloseTo((33 / 39 - 819 / 1521) / (1 - 819 / 1521), 12);
  });
});

describe('weighted kappa', () => {
  it('SAS FREQ example, linear (Cicchetti-Allison) weights: .5082', () => {
    expect(weightedAgreement(DERMATOLOGISTS).kappa).toBeCloseTo(0.5082, 4);
  });

  it('of two answers is plain kappa', () => {
    const table = [
      [50, 10],
      [10, 20],
    ];
    expect(weightedAgreement(table).kappa).toBeCloseTo(agreement(table).kappa, 12);
  });
});

it('both agree with kappa by disagreement, worked out from pairs with jstat, on many tables', () => {
  for (let seed = 1; seed <= 40; seed += 1) {
    const size = 2 + (seed % 4);
    const table = Array.from({ length: size }, (_, row) =>
      Array.from({ length: size }, (__, column) => (seed * (row * 7 + column * 3 + 1)) % 41),
    );
    expect(agreement(table).kappa, `${seed}`).toBeCloseTo(byDisagreement(table, unlike), 9);
    expect(weightedAgreement(table).kappa, `${seed}`).toBeCloseTo(byDisagreement(table, apart), 9);
  }
});

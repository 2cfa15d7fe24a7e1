import { describe, expect, it } from 'vitest';
import { saidFindings, type SaidFinding } from '../../../src/domain/deciding/corrected';
import {
  fieldsOf,
  readCorrection,
  takesPainAway,
  type CorrectionFields,
} from '../../../src/domain/deciding/correction';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';
import { book } from './book';
import { Telling } from './logging';

const findingOf = (told: Telling): SaidFinding => saidFindings(told.entries).at(-1)!;
const lost = () => findingOf(new Telling('overhead').lost('ribs-flared'));
const read = (change: Partial<CorrectionFields>, one = lost()) =>
  readCorrection(
    ...([
      book,
      DEFAULT_SETTINGS,
      one,
      { ...fieldsOf(one.first), ...change },
      'goniometer',
    ] as const),
  );
const wrong = (change: Partial<CorrectionFields>, one = lost()) =>
  read(change, one).problems.map(({ field, say }) => `${field}: ${say}`);

const REFUSED: [string, Partial<CorrectionFields>, RegExp][] = [
  ['held with a position given up', { result: 'held' }, /^faults: .*lost and not held/],
  ['short with a position given up', { result: 'short' }, /^faults: .*lost and not short/],
  [
    'held with the range not reached',
    { result: 'held', faults: ['arms-short'] },
    /^faults: .*short and not held/,
  ],
  [
    'a pass under the pass line',
    { result: 'held', faults: [], angle: '140' },
    /^angle: 140° is a pass under the pass line of 155°/,
  ],
  ['an angle too small', { angle: '19' }, /^angle: .*from 20 to 200 degrees/],
  ['an angle too large', { angle: '201' }, /^angle: /],
  ['an angle that is none', { angle: 'one forty' }, /^angle: /],
  ['an angle with a fraction', { angle: '140.5' }, /^angle: /],
  [
    'a fault of what was not tested',
    { result: 'not-tested' },
    /^result: What was not tested has no fault/,
  ],
  ['pain without a number', { result: 'pain' }, /^pain: How much/],
  ['a kind without a number', { kind: 'sharp' }, /^pain: How much/],
  ['no pain as the result pain', { result: 'pain', pain: '0' }, /^pain: 0 is no pain/],
  ['more than goes on with another result', { pain: '3', kind: 'known' }, /^result: Pain 3 is/],
  [
    'pain without a number with another result',
    { pain: 'unanswered' },
    /^result: Pain without a number/,
  ],
  ['pain without a kind', { result: 'pain', pain: '2' }, /^kind: Which kind/],
];

describe('what is typed as a correction', () => {
  it('is read: result, faults, angle with its tool, pain and kind', () => {
    expect(
      read({ result: 'pain', faults: ['back-arched'], angle: ' 140° ', pain: '4', kind: 'known' }),
    ).toEqual({
      problems: [],
      said: {
        ...{ side: 'left', result: 'pain', faults: ['back-arched'], load: null },
        ...{ angleDegrees: 140, tool: 'goniometer', pain: 4, painKind: 'known' },
      },
    });
  });

  it.each(REFUSED)('14.10 %s is refused, at its field', (_, change, say) => {
    expect(wrong(change)).toEqual([expect.stringMatching(say)]);
    expect(read(change).said).toBeNull();
  });

  it.each<[string, Partial<CorrectionFields>]>([
    ['short of range', { result: 'short', faults: ['arms-short'] }],
    ['lost with no fault named', { faults: [] }],
    ['a pass on the pass line', { result: 'held', faults: [], angle: '155' }],
    ['the smallest and the largest angle', { angle: '20' }],
    ['known pain that goes on beside a result', { pain: '2', kind: 'known' }],
    ['pain above the line, of which no kind is asked', { result: 'pain', pain: '6' }],
    ['pain of which nobody gave a number', { result: 'pain', pain: 'unanswered' }],
    ['not tested, and nothing else', { result: 'not-tested', faults: [] }],
  ])('takes %s', (_, change) => {
    expect(wrong(change)).toEqual([]);
  });

  it('a plain zero has no kind, one that is called sharp keeps it', () => {
    expect(read({ pain: '0', kind: 'known' }).said?.painKind).toBeNull();
    expect(read({ pain: '0', kind: 'sharp' }).said?.painKind).toBe('sharp');
  });

  it('what stands in the record already is no problem', () => {
    const told = new Telling('overhead').lost('ribs-flared');
    const one = findingOf(told);
    const insisted = { ...one, first: { ...one.first, result: 'held' as const } };
    expect(wrong({}, insisted)).toEqual([]);
    expect(wrong({ angle: '160' }, insisted)).toHaveLength(1);
  });
});

describe('taking pain away', () => {
  const pain = (number: number | 'unanswered' | null, kind: 'known' | 'new' | null = 'known') => ({
    ...lost().first,
    result: number === null ? ('held' as const) : ('pain' as const),
    ...{ pain: number, painKind: kind },
  });
  const away = (before: ReturnType<typeof pain>, now: ReturnType<typeof pain>) =>
    takesPainAway(DEFAULT_SETTINGS, before, now);

  it('14.7 is no pain, less of it, or a milder kind', () => {
    expect(away(pain(2), pain(null, null))).toBe(true);
    expect(away(pain(6), pain(4))).toBe(true);
    expect(away(pain(2), pain(1))).toBe(true);
    expect(away(pain(2, 'new'), pain(2))).toBe(true);
    expect(away(pain('unanswered'), pain(5))).toBe(true);
  });

  it('14.7 is not more of it, the same, or none before and after', () => {
    expect(away(pain(2), pain(2))).toBe(false);
    expect(away(pain(2), pain(4))).toBe(false);
    expect(away(pain(2), pain(2, 'new'))).toBe(false);
    expect(away(pain(null, null), pain(null, null))).toBe(false);
  });
});

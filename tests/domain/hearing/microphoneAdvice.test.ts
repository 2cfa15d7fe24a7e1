import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  adviceOf,
  comparedWith,
  roomOf,
  STANDINGS,
  standingOf,
  type MicrophoneMeasured,
  type Standing,
} from '../../../src/domain/hearing/microphoneAdvice';

const WELL: MicrophoneMeasured = {
  asked: 3,
  right: 3,
  almost: 0,
  other: 0,
  unheard: 0,
  soundArrives: true,
  aboveNoiseDecibels: 16,
  noiseDecibels: -58,
  clippedShare: 0,
  aboveOwnVoiceDecibels: null,
  hearsOverSound: true,
  othersTalked: false,
  hasCallWord: false,
  isFitted: false,
  recogniser: 'strong',
  isBetterComing: false,
};
const SILENT = { right: 0, unheard: 3, aboveNoiseDecibels: null };
const LOST = { right: 1, unheard: 2 };
const MISTAKEN = { right: 1, other: 2 };

/** What is advised and why, in one line each: "come-nearer 0.5 (noise)". */
const told = (change: Partial<MicrophoneMeasured>, before: Standing | null = null) =>
  adviceOf({ ...WELL, ...change }, before).map(({ to, because, distanceShare }) =>
    [to, distanceShare, `(${because})`].filter((part) => part !== undefined).join(' '),
  );

describe('the advice', () => {
  it.each<[string, Partial<MicrophoneMeasured>, Standing, string[]]>([
    ['all is well', {}, 'well', ['begin (all-heard)']],
    ['just loud enough', { aboveNoiseDecibels: 10 }, 'well', ['begin (all-heard)']],
    [
      'a little too far',
      { aboveNoiseDecibels: 9 },
      'barely',
      ['come-nearer 0.75 (noise)', 'use-earbuds (noise)'],
    ],
    [
      'too far: 6 dB are half the distance',
      { ...LOST, aboveNoiseDecibels: 4 },
      'badly',
      ['come-nearer 0.5 (noise)', 'use-earbuds (noise)'],
    ],
    [
      'all heard this once, though so near the noise that words are lost',
      { aboveNoiseDecibels: 7 },
      'barely',
      ['come-nearer 0.5 (noise)', 'use-earbuds (noise)'],
    ],
    [
      'too far in a loud room',
      { ...LOST, aboveNoiseDecibels: 5, noiseDecibels: -30 },
      'badly',
      ['come-nearer 0.5 (noise)', 'turn-it (loud-room)'],
    ],
    [
      'much too far: 12 dB are a quarter of the distance',
      { ...LOST, aboveNoiseDecibels: -2 },
      'badly',
      ['use-earbuds (noise)', 'come-nearer 0.25 (noise)'],
    ],
    [
      'where coming nearer cannot help',
      { ...LOST, aboveNoiseDecibels: -3 },
      'badly',
      ['use-earbuds (noise)', 'use-buttons (noise)'],
    ],
    ['distorted, and else well', { clippedShare: 0.3 }, 'barely', ['talk-softer (distorted)']],
    [
      'distorted and too far: closer rather than louder',
      { clippedShare: 0.3, aboveNoiseDecibels: 6 },
      'barely',
      ['talk-softer (distorted)', 'come-nearer 0.5 (noise)'],
    ],
    [
      'just loud enough but mistaken',
      { ...MISTAKEN, aboveNoiseDecibels: 11 },
      'barely',
      ['check-voice (mistaken)'],
    ],
    ['loud enough but mistaken', MISTAKEN, 'barely', ['check-voice (mistaken)']],
    [
      'mistaken although it knows the voice',
      { ...MISTAKEN, isFitted: true },
      'barely',
      ['talk-slower (mistaken)'],
    ],
    [
      'mistaken by the small recogniser, before the better one is there',
      { ...MISTAKEN, recogniser: 'small', isBetterComing: true },
      'barely',
      ['wait-for-better (small-recogniser)', 'check-voice (mistaken)'],
    ],
    [
      'others were heard',
      { othersTalked: true },
      'well',
      ['begin (all-heard)', 'set-call-word (others)'],
    ],
    [
      'others, with a call word',
      { othersTalked: true, hasCallWord: true },
      'well',
      ['begin (all-heard)'],
    ],
    [
      'its own voice drowns a stop',
      { aboveOwnVoiceDecibels: 3 },
      'well',
      ['begin (all-heard)', 'use-earbuds (own-voice)'],
    ],
    ['its own voice is faint', { aboveOwnVoiceDecibels: 12 }, 'well', ['begin (all-heard)']],
    [
      'the browser leaves its own voice in',
      { hearsOverSound: false },
      'well',
      ['begin (all-heard)', 'use-earbuds (own-voice)'],
    ],
    [
      'nothing arrives: muted, not allowed, another app',
      { ...SILENT, soundArrives: false },
      'nothing',
      ['look-at-microphone (no-sound)'],
    ],
    [
      'the room is heard and nobody in it',
      SILENT,
      'nothing',
      ['come-nearer 0.5 (no-voice)', 'look-at-microphone (no-voice)'],
    ],
  ])('%s', (_, change, standing, advice) => {
    expect(standingOf({ ...WELL, ...change })).toBe(standing);
    expect(told(change)).toEqual(advice);
  });

  it('leads to the hands where the second check is as bad as the first', () => {
    expect(told({ ...LOST, aboveNoiseDecibels: 4 }, 'badly')).toEqual([
      'come-nearer 0.5 (noise)',
      'use-buttons (noise)',
    ]);
    expect(told({ ...LOST, aboveNoiseDecibels: 4 }, 'well')).not.toContain('use-buttons (noise)');
    expect(told({}, 'badly')).toEqual(['begin (all-heard)']);
  });
});

const decibels = fc.option(fc.double({ min: -20, max: 60, noNaN: true }), { nil: null });
const heard = fc
  .array(fc.constantFrom('right', 'almost', 'other', 'unheard'), { minLength: 3, maxLength: 3 })
  .map((all) => {
    const count = (how: string) => all.filter((each) => each === how).length;
    return {
      ...{ right: count('right'), almost: count('almost') },
      ...{ other: count('other'), unheard: count('unheard') },
    };
  });
const measured: fc.Arbitrary<MicrophoneMeasured> = fc
  .record({
    counts: heard,
    rest: fc.record({
      asked: fc.constant(3),
      soundArrives: fc.boolean(),
      aboveNoiseDecibels: decibels,
      noiseDecibels: fc.option(fc.double({ min: -90, max: 0, noNaN: true }), { nil: null }),
      clippedShare: fc.double({ min: 0, max: 1, noNaN: true }),
      aboveOwnVoiceDecibels: decibels,
      hearsOverSound: fc.boolean(),
      othersTalked: fc.boolean(),
      hasCallWord: fc.boolean(),
      isFitted: fc.boolean(),
      recogniser: fc.constantFrom('small' as const, 'strong' as const),
      isBetterComing: fc.boolean(),
    }),
  })
  .map(({ counts, rest }) => ({ ...counts, ...rest }));
const rank = (one: MicrophoneMeasured) => STANDINGS.indexOf(standingOf(one));
const share = (one: MicrophoneMeasured) =>
  adviceOf(one).find(({ to }) => to === 'come-nearer')?.distanceShare;

describe('whatever was measured', () => {
  it('one line or two are advised, none twice, and it is called good only where it is', () => {
    const before = fc.option(fc.constantFrom(...STANDINGS), { nil: null });
    fc.assert(
      fc.property(measured, before, (one, was) => {
        const advice = adviceOf(one, was);
        expect(advice.length).toBeGreaterThanOrEqual(1);
        expect(advice.length).toBeLessThanOrEqual(2);
        expect(new Set(advice.map(({ to }) => to)).size).toBe(advice.length);
        const isGood = advice.some(({ to }) => to === 'begin');
        expect(isGood).toBe(standingOf(one) === 'well');
      }),
    );
  });

  it('more noise never makes it better, nor lets the coach stand farther away', () => {
    fc.assert(
      fc.property(measured, fc.double({ min: 0, max: 40, noNaN: true }), (one, more) => {
        const { aboveNoiseDecibels: above, noiseDecibels: noise } = one;
        const louder = {
          ...one,
          aboveNoiseDecibels: above === null ? null : above - more,
          noiseDecibels: noise === null ? null : noise + more,
        };
        expect(rank(louder)).toBeGreaterThanOrEqual(rank(one));
        const [near, far] = [share(louder), share(one)];
        if (near !== undefined && far !== undefined) expect(near).toBeLessThanOrEqual(far);
      }),
    );
  });

  it('a reply that is lost, and more distortion, never make it better', () => {
    fc.assert(
      fc.property(measured, fc.double({ min: 0, max: 1, noNaN: true }), (one, more) => {
        fc.pre(one.right > 0);
        const lost = { ...one, right: one.right - 1, unheard: one.unheard + 1 };
        expect(rank(lost)).toBeGreaterThanOrEqual(rank(one));
        const worse = { ...one, clippedShare: Math.min(1, one.clippedShare + more) };
        expect(rank(worse)).toBeGreaterThanOrEqual(rank(one));
      }),
    );
  });

  it('a check is the same as itself, and what is better one way is worse the other', () => {
    const turned = { better: 'worse', worse: 'better', same: 'same' };
    fc.assert(
      fc.property(measured, measured, (one, other) => {
        expect(comparedWith(one, one)).toBe('same');
        expect(comparedWith(other, one)).toBe(turned[comparedWith(one, other)]);
      }),
    );
  });
});

describe('beside the check before', () => {
  it.each<[Partial<MicrophoneMeasured>, string]>([
    [{ aboveNoiseDecibels: 20 }, 'better'],
    [{ aboveNoiseDecibels: 17 }, 'same'],
    [{ aboveNoiseDecibels: 12 }, 'worse'],
    [{ right: 2, other: 1 }, 'worse'],
  ])('%o is %s', (change, how) => {
    expect(comparedWith(WELL, { ...WELL, ...change })).toBe(how);
  });
});

it.each([
  [-70, 'quiet'],
  [-50, 'busy'],
  [-30, 'loud'],
] as const)('a room of %d dB is %s', (noise, room) => {
  expect(roomOf(noise)).toBe(room);
});

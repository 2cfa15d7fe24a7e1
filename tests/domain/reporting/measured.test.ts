import { describe, expect, it } from 'vitest';
import type { AngleTool } from '../../../src/domain/findings';
import type { SessionSettings } from '../../../src/domain/log';
import { reportOf } from '../../../src/domain/reporting/report';
import type { Telling } from '../deciding/logging';
import { begin, book } from './book';
import { saying, toRetest } from './measuring';

const measured = (told: Telling) => reportOf(book, told.entries).measured;
/** The standing arm lift, which is active, fails at one angle and is tested again at another. */
const standing = (first: number, then: number | null, tool?: AngleTool, again = tool) => {
  const told = saying(begin('overhead').held(3), 'short', first, tool);
  return saying(toRetest(told), 'short', then, again);
};
const change = (told: Telling) => measured(told)[0]?.sides[0]?.change;
const words = (told: Telling) =>
  measured(told).flatMap(({ told: said }) =>
    said.map(({ what, says }) => `${what} ${says}`.trim()),
  );
/** The passive arm lift, left and right, and nothing after it. */
const arms = (left: number, right: number, tool?: AngleTool, more: Partial<SessionSettings> = {}) =>
  saying(saying(begin('overhead', 'hands-on', more), 'short', left, tool), 'short', right, tool);

describe('the change of an angle from first to retest', () => {
  it('12.15 is called only beyond what the tool can be out by, and says which figure', () => {
    expect(change(standing(140, 149))).toEqual({
      verdict: 'better',
      degrees: 9,
      mayBeCalled: true,
      mdc: {
        degrees: 8,
        percent: 90,
        source: expect.stringMatching(/Kolber 2011/),
        status: 'published',
      },
      why: null,
    });
    expect(change(standing(140, 148))).toMatchObject({ verdict: 'within-error', degrees: 8 });
    expect(change(standing(149, 140))).toMatchObject({ verdict: 'worse', degrees: -9 });
    expect(words(standing(140, 149))[0]).toBe(
      'Angle: 140, then 149 degrees by inclinometer. More range, beyond the 8 degrees that this tool can be out by. Under the line of 155 degrees.',
    );
    expect(words(standing(140, 148))[0]).toMatch(/then 148 degrees .* so no change is called\./);
  });

  it('12.15 passive, the same tool can be out by far more', () => {
    const told = toRetest(arms(140, 150).held(2));
    saying(saying(told, 'short', 173), 'short', 185);
    const [left, right] = measured(told)[0]!.sides;
    expect(left!.change).toMatchObject({ verdict: 'within-error', mdc: { degrees: 34 } });
    expect(left!.change?.mdc?.status).toBe('computed');
    expect(right!.change).toMatchObject({ verdict: 'better', degrees: 35 });
  });

  it('12.15 by eye is noted, never called', () => {
    const far = standing(110, 150, 'eye');
    expect(change(far)).toMatchObject({ verdict: 'better', mayBeCalled: false });
    expect(words(far)[0]).toMatch(/Noted, but not called a change/);
    expect(words(far)[0]).not.toMatch(/More range/);
    expect(words(standing(140, 152, 'eye'))[0]).toBe(
      'Angle: 140, then 152 degrees by eye. By eye it can be out by 30 degrees and more, so no change is called. Under the line of 155 degrees.',
    );
  });

  it('12.15 compares neither two tools nor a tool of which no error is known', () => {
    const none = { verdict: 'not-comparable', degrees: null, mayBeCalled: false, mdc: null };
    const two = standing(140, 170, 'eye', 'inclinometer');
    expect(change(two)).toEqual({ ...none, why: 'other-tool' });
    expect(words(two)[0]).toMatch(/^Angle: 140 by eye, then 170 degrees by inclinometer\. Two/);
    const unknown = standing(140, 170, 'goniometer');
    expect(change(unknown)).toEqual({ ...none, why: 'nothing-published' });
    expect(words(unknown)[0]).toMatch(/is not known, so the change is not judged/);
  });

  it('12.15 needs an angle both times; the retest stands, be it without one', () => {
    const [one] = measured(standing(140, null));
    expect(one?.sides[0]).toMatchObject({ stands: null, change: null, passLine: null });
    expect(words(standing(140, null))).toEqual([
      'Angle: 140 degrees by inclinometer at first, and no angle when it was tested again.',
    ]);
    const left = toRetest(saying(begin('overhead').held(3), 'short', 140)).coach('skip');
    expect(measured(left)[0]?.sides[0]).toMatchObject({ stands: { degrees: 140 }, change: null });
    expect(measured(begin('overhead').held(4))).toEqual([]);
  });
});

describe('the sides of a check', () => {
  it.each([
    [150, 154, 'inclinometer', 'none'],
    [150, 155, 'inclinometer', 'noted'],
    [150, 159, 'inclinometer', 'noted'],
    [160, 150, 'inclinometer', 'called'],
    [160, 130, 'eye', 'noted'],
  ] as const)('12.16 at %i and %i by %s their difference is %s', (left, right, tool, verdict) => {
    const [one] = measured(arms(left, right, tool));
    const degrees = Math.abs(left - right);
    expect(one?.sideDifference).toMatchObject({ verdict, degrees, tool, status: 'practice' });
    const told = words(arms(left, right, tool)).filter((one) => one.startsWith('Left and right'));
    expect(told).toHaveLength(verdict === 'none' ? 0 : 1);
    for (const sentence of told) {
      expect(sentence).toMatch(left < right ? /less on the left/ : /less on the right/);
      expect(/Noted, but/.test(sentence)).toBe(verdict === 'noted');
      expect(/by eye/.test(sentence)).toBe(tool === 'eye');
    }
    expect(/Kolber 2011/.test(one?.sideDifference?.source ?? '')).toBe(verdict === 'called');
  });

  it('12.16 is of the angles that stand, and of none where a side has no angle', () => {
    const told = toRetest(arms(140, 160).held(2));
    saying(saying(told, 'short', 158), 'short', 160);
    expect(measured(told)[0]?.sideDifference).toMatchObject({ verdict: 'none', degrees: 2 });
    const one = saying(begin('overhead'), 'short', 140).held();
    expect(measured(one)[0]?.sideDifference).toBeNull();
  });
});

describe('what an angle is held against', () => {
  it('12.17 is the line of the coach', () => {
    const [usual] = measured(arms(154, 155));
    expect(usual?.sides.map(({ passLine }) => passLine?.verdict)).toEqual(['under', 'reached']);
    const [own] = measured(arms(154, 155, 'eye', { passLineDegrees: 150 }));
    expect(own?.sides[0]?.passLine).toEqual({ degrees: 150, verdict: 'reached' });
    expect(words(arms(154, 155, 'eye', { passLineDegrees: 150 }))[0]).toBe(
      'Left: 154 degrees by eye. Reaches the line of 150 degrees.',
    );
    const squat = saying(begin('squat'), 'short', 90);
    expect(measured(squat)[0]?.sides[0]?.passLine).toBeNull();
    expect(words(squat)).toEqual(['Angle: 90 degrees by inclinometer.']);
  });

  const ofSex = (told: Telling, sex: 'male' | 'female') => {
    const [started, ...rest] = told.entries;
    if (started?.type !== 'started') throw new Error('not begun');
    told.entries = [{ ...started, athlete: { sex } }, ...rest];
    return told;
  };

  it('12.17 is the norm for context, where sex and tool allow, and never as verified', () => {
    // Vairo 2012, Table 4: men p5 153, p50 165, p95 179.
    const told = (degrees: number) => ofSex(standing(150, degrees, 'goniometer'), 'male');
    const [low] = measured(told(152));
    expect(low?.sides[0]?.norm).toMatchObject({
      from: null,
      below: 'p5',
      sex: 'male',
      status: 'published',
      toolStatus: 'from-memory',
    });
    expect(words(told(152))[0]).toMatch(/95 of 100 healthy young men reached more\..*not verified/);
    expect(words(told(160))[0]).toMatch(/lower half of healthy young men/);
    expect(words(told(170))[0]).toMatch(/upper half of healthy young men/);
    expect(words(told(179))[0]).toMatch(/only 5 of 100 healthy young men/);
    expect(low?.sources.join(' ')).toMatch(/Vairo 2012/);
    expect(measured(standing(150, 152, 'goniometer'))[0]?.sides[0]?.norm).toBeNull();
    const other = measured(ofSex(standing(150, 152, 'inclinometer'), 'female'));
    expect(other[0]?.sides[0]?.norm).toBeNull();
  });

  it('12.17 names the source of every figure that it leans on, once, and what is practice', () => {
    expect(measured(standing(140, 149))[0]?.sources).toEqual([
      expect.stringMatching(/^Kolber 2011.*: published\.$/),
    ]);
    const again = toRetest(arms(140, 142).held(2));
    saying(saying(again, 'short', 142), 'short', 145);
    expect(measured(again)[0]?.sources).toEqual([
      expect.stringMatching(/^Dougherty 2015.*: computed from what was published\.$/),
    ]);
    const [both] = measured(arms(140, 160));
    expect(both?.sources).toEqual([
      expect.stringMatching(/^When two sides differ: common practice/),
    ]);
    expect(both?.sources.join(' ')).not.toMatch(/published/);
  });
});

import { describe, expect, it } from 'vitest';
import type { AngleTool } from '../../../src/domain/findings';
import { changeSince } from '../../../src/domain/measuring/changeSince';
import { detectableChange } from '../../../src/domain/measuring/detectableChange';
import { motionOf, type Measured } from '../../../src/domain/measuring/motion';
import { normBand } from '../../../src/domain/measuring/norms';
import { sideDifference } from '../../../src/domain/measuring/sideDifference';
import { bookOf } from '../../../src/cli/verb';

const angle = (
  angleDegrees: number | null,
  tool: AngleTool | null = 'inclinometer',
  more: Partial<Measured> = {},
): Measured => ({
  check: 'overhead-active-standing',
  side: 'left',
  angleDegrees,
  tool,
  ...more,
});
const passive = { check: 'overhead-passive' };

describe('a change since the last visit', () => {
  it.each([
    [150, 158, 'within-error'],
    [150, 159, 'better'],
    [150, 158.1, 'better'],
    [158, 150, 'within-error'],
    [159, 150, 'worse'],
    [150, 150, 'within-error'],
  ])('active, by inclinometer, from %d to %d is %s: it must exceed 8', (before, now, change) => {
    expect(changeSince(angle(before), angle(now))).toMatchObject({
      change,
      differenceDegrees: now - before,
      error: { degrees: 8, percent: 90, mayBeCalled: true },
    });
  });

  it.each([
    [130, 164, 'within-error'],
    [130, 165, 'better'],
    [165, 130, 'worse'],
  ])('passive, by inclinometer, from %d to %d is %s: it must exceed 34', (before, now, change) => {
    const [one, other] = [before, now].map((each) => angle(each, 'inclinometer', passive));
    expect(changeSince(one!, other!)).toMatchObject({ change, error: { percent: 95 } });
  });

  it('by eye must exceed 30, and is noted, never called', () => {
    expect(changeSince(angle(130, 'eye'), angle(160, 'eye'))).toMatchObject({
      change: 'within-error',
    });
    expect(changeSince(angle(130, 'eye'), angle(161, 'eye'))).toMatchObject({
      change: 'better',
      error: { mayBeCalled: false },
    });
  });

  it.each<[string, Measured, Measured]>([
    ['other-check', angle(150), angle(170, 'inclinometer', passive)],
    ['other-side', angle(150), angle(170, 'inclinometer', { side: 'right' })],
    ['other-tool', angle(130, 'eye'), angle(170)],
    ['no-angle', angle(null), angle(170)],
    ['no-angle', angle(150), angle(null, null)],
    ['nothing-published', angle(130, 'goniometer'), angle(170, 'goniometer')],
    ['nothing-published', angle(130, 'tilt-sensor'), angle(170, 'tilt-sensor')],
    ['nothing-published', angle(130, null), angle(170, null)],
    [
      'nothing-published',
      angle(90, 'inclinometer', { check: 'hinge-bar' }),
      angle(150, 'inclinometer', { check: 'hinge-bar' }),
    ],
  ])('is not compared: %s', (why, before, now) => {
    expect(changeSince(before, now)).toEqual({ change: 'not-comparable', why });
  });

  it('names where its error comes from', () => {
    expect(detectableChange('inclinometer', 'active')?.figure.source).toContain('Kolber 2011');
    expect(detectableChange('inclinometer', 'passive')?.figure.source).toContain('Dougherty 2015');
    expect(detectableChange('eye', 'passive')?.figure.source).toContain('Hayes 2001');
  });
});

it('every overhead check of the scripts is known as active or passive, no other check is', () => {
  for (const { id, area } of Object.values(bookOf().checks)) {
    const active = id.includes('active') ? 'active' : 'passive';
    expect(motionOf(id), id).toBe(area === 'overhead' ? active : null);
  }
  expect(motionOf('constructor')).toBeNull();
});

describe('the difference between the sides', () => {
  const between = (left: number, right: number, tool: AngleTool) =>
    sideDifference(angle(left, tool), angle(right, tool, { side: 'right' }));

  it.each([
    [160, 155.5, 'none', 'right'],
    [160, 155, 'noted', 'right'],
    [155, 160, 'noted', 'left'],
    [160, 150.5, 'noted', 'right'],
    [160, 150, 'called', 'right'],
    [140, 170, 'called', 'left'],
    [160, 160, 'none', null],
  ])('%d and %d: %s, the lower side is %s', (left, right, verdict, lower) => {
    const differenceDegrees = Math.abs(left - right);
    expect(between(left, right, 'inclinometer')).toEqual({ verdict, lower, differenceDegrees });
  });

  it('by eye is never more than noted', () => {
    expect(between(120, 170, 'eye')).toMatchObject({ verdict: 'noted' });
  });

  it('is not told across tools or checks, or without both angles', () => {
    expect(sideDifference(angle(150), angle(170, 'eye'))).toBeNull();
    expect(sideDifference(angle(150), angle(170, 'inclinometer', passive))).toBeNull();
    expect(sideDifference(angle(150), angle(null, null))).toBeNull();
    expect(sideDifference(angle(150, null), angle(170, null))).toBeNull();
  });
});

describe('where an angle lies among healthy young adults', () => {
  const band = (angleDegrees: number, sex: 'female' | 'male') =>
    normBand('overhead-active-standing', 'goniometer', sex, angleDegrees);

  it.each([
    [152, 'male', null, 'p5'],
    [153, 'male', 'p5', 'p50'],
    [165, 'male', 'p50', 'p95'],
    [179, 'male', 'p95', null],
    [154, 'female', null, 'p5'],
    [155, 'female', 'p5', 'p50'],
    [167, 'female', 'p5', 'p50'],
    [179, 'female', 'p50', 'p95'],
    [180, 'female', 'p95', null],
  ] as const)('%d degrees, %s: from %s, below %s', (degrees, sex, from, below) => {
    expect(band(degrees, sex)).toEqual({ from, below });
  });

  it('is not told where sex or angle is not given, or nothing is published', () => {
    const active = 'overhead-active-standing';
    expect(normBand(active, 'goniometer', undefined, 160)).toBeNull();
    expect(normBand(active, 'goniometer', 'male', null)).toBeNull();
    for (const tool of ['eye', 'inclinometer', 'tilt-sensor', null] as const) {
      expect(normBand(active, tool, 'male', 160), String(tool)).toBeNull();
    }
    expect(normBand('overhead-passive', 'goniometer', 'male', 160)).toBeNull();
    expect(normBand('hinge-bar', 'goniometer', 'male', 160)).toBeNull();
    expect(normBand(null, 'goniometer', 'male', 160)).toBeNull();
  });
});

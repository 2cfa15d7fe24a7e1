import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  DROPPED_OUT_MILLISECONDS,
  followed,
  isStill,
  SMOOTHING_MILLISECONDS,
  STILL_MILLISECONDS,
  stillFor,
  type Following,
  type Sample,
} from '../../../src/domain/tilt/following';
import { armVerdict, shinVerdict, worstOf } from '../../../src/domain/tilt/grading';
import { lineOf, tiltFrom, type Line } from '../../../src/domain/tilt/line';
import { degreesBetween, type Vector } from '../../../src/domain/tilt/vector';
import { atRest, noiseOf, PLAIN, stream, type Limb, type Phone } from './streams';

const all = (samples: Sample[], from: Following | null = null): Following | null =>
  samples.reduce(followed, from);
const lineOrNull = (first: Vector, second: Vector): Line | null => {
  const found = lineOf(first, second);
  return 'line' in found ? found.line : null;
};

/** Upright along a wall that leans, then turned round: the lean changes sides. */
const setUpright = (phone: Phone, leanDegrees = 0): Line => {
  const against = (roll: number) => atRest({ tilt: leanDegrees, towards: 0, roll }, phone);
  return lineOrNull(against(0), against(180))!;
};

const upTo = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
const turn = fc.double({ min: 0, max: 360, noNaN: true });
const tilt = fc.double({ min: 0, max: 180, noNaN: true });
const offset = (most: number) => fc.record({ x: upTo(most), y: upTo(most), z: upTo(most) });
const strapped = fc.tuple(upTo(12), upTo(12)) as fc.Arbitrary<[number, number]>;
const limb: fc.Arbitrary<Limb> = fc.record({ tilt, towards: turn, roll: turn });

describe('the angle from gravity', () => {
  it.each([0, 4, 10, 45, 90, 155, 180])('is %d degrees where it is known to be', (degrees) => {
    const line = setUpright(PLAIN);
    const read = tiltFrom(line, atRest({ tilt: degrees, towards: 30, roll: 70 }, PLAIN));
    expect(read.degrees).toBeCloseTo(degrees, 3);
  });

  it('is the same however the limb is turned about its own line and wherever it points', () => {
    fc.assert(
      fc.property(limb, strapped, turn, turn, (at, strap, roll, towards) => {
        const phone = { ...PLAIN, strapped: strap };
        const line = setUpright(phone);
        const one = tiltFrom(line, atRest(at, phone)).degrees;
        const other = tiltFrom(line, atRest({ ...at, roll, towards }, phone)).degrees;
        expect(one).toBeCloseTo(other, 2);
        expect(one).toBeCloseTo(at.tilt, 2);
      }),
    );
  });

  it('is the same where the browser tells gravity with the other sign', () => {
    fc.assert(
      fc.property(limb, strapped, (at, strap) => {
        const phone = { ...PLAIN, strapped: strap };
        const turned = ({ x, y, z }: Vector): Vector => ({ x: -x, y: -y, z: -z });
        const line = setUpright(phone);
        expect(tiltFrom(turned(line), turned(atRest(at, phone))).degrees).toBeCloseTo(at.tilt, 2);
      }),
    );
  });

  it('loses no digits near 0 and 180', () => {
    const up = { x: 0, y: 9.81, z: 0 };
    const near = { x: 9.81e-9, y: 9.81, z: 0 };
    expect(degreesBetween(up, near)).toBeCloseTo((1e-9 * 180) / Math.PI, 15);
    expect(degreesBetween(up, { x: 0, y: 0, z: 0 })).toBe(0);
  });
});

describe('set in two steps', () => {
  it('takes out the lean of the wall, the strap and what the sensor is off by, near upright', () => {
    fc.assert(
      fc.property(offset(0.3), strapped, upTo(5), turn, turn, (off, strap, lean, towards, roll) => {
        const phone = { strapped: strap, offset: off };
        const line = setUpright(phone, lean);
        const upright = tiltFrom(line, atRest({ tilt: 0, towards, roll }, phone));
        expect(upright.degrees).toBeLessThan(0.3);
        const ten = tiltFrom(line, atRest({ tilt: 10, towards, roll: 0 }, phone));
        expect(Math.abs(ten.degrees - 10)).toBeLessThan(0.8);
      }),
    );
  });

  it('says how far it may be off, and keeps to it at every angle', () => {
    fc.assert(
      fc.property(offset(0.08), strapped, limb, (off, strap, at) => {
        const phone = { strapped: strap, offset: off };
        const read = tiltFrom(setUpright(phone), atRest(at, phone));
        expect(Math.abs(read.degrees - at.tilt)).toBeLessThan(read.uncertainDegrees);
      }),
    );
  });

  it('with one step alone the lean of the wall would stay in it', () => {
    const once = atRest({ tilt: 4, towards: 0, roll: 0 }, PLAIN);
    const upright = atRest({ tilt: 0, towards: 0, roll: 0 }, PLAIN);
    expect(degreesBetween(once, upright)).toBeCloseTo(4, 3);
    expect(tiltFrom(setUpright(PLAIN, 4), upright).degrees).toBeCloseTo(0, 3);
  });

  const upright = atRest({ tilt: 0, towards: 0, roll: 0 }, PLAIN);
  it.each([
    ['off-scale', { x: 0, y: 8.9, z: 0 }],
    ['off-scale', { x: 0, y: 0, z: 0 }],
    ['across', { x: 9.81, y: 0, z: 0 }],
    ['across', { x: 0, y: 0, z: 9.81 }],
    ['slipped', { x: 0, y: -9.81, z: 0 }],
    ['slipped', atRest({ tilt: 25, towards: 0, roll: 0 }, PLAIN)],
  ] as const)('is refused as %s', (problem, second) => {
    expect(lineOf(upright, second)).toEqual({ problem });
  });
});

describe('followed over time', () => {
  const upright = atRest({ tilt: 0, towards: 0, roll: 0 }, PLAIN);
  const at = (degrees: number) => atRest({ tilt: degrees, towards: 0, roll: 0 }, PLAIN);

  it('noise is smoothed to a fraction, whatever its seed', () => {
    fc.assert(
      fc.property(fc.nat(), fc.double({ min: 0, max: 40, noNaN: true }), (seed, degrees) => {
        const noise = noiseOf(seed);
        const samples = stream(2, () => at(degrees), { noise, amplitude: 0.4 });
        const following = all(samples);
        expect(isStill(following)).toBe(true);
        const read = tiltFrom(upright, following!.smoothed);
        // Of one reading by itself up to 3.3 degrees.
        expect(Math.abs(read.degrees - degrees)).toBeLessThan(1.7);
      }),
    );
  });

  it('takes over 63 % of a change in its time constant, however unevenly it is told', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1 }), (gaps) => {
        const steady = all(stream(1, () => at(0)));
        let now = 1000;
        let following = steady;
        for (const gap of [...gaps, SMOOTHING_MILLISECONDS]) {
          if (now + gap > 1000 + SMOOTHING_MILLISECONDS) break;
          now += gap;
          following = followed(following, { vector: at(2), atMilliseconds: now });
        }
        const last = 1000 + SMOOTHING_MILLISECONDS;
        following = followed(following, { vector: at(2), atMilliseconds: last });
        const read = tiltFrom(upright, following!.smoothed).degrees;
        expect(read).toBeCloseTo(2 * (1 - Math.exp(-1)), 2);
      }),
    );
  });

  it('while it is moved nothing counts, and only after it has been still again', () => {
    const still = all(stream(1, () => at(3)));
    expect(isStill(still)).toBe(true);
    const jolt: Vector = { x: 0, y: 13, z: 0 };
    const moved = followed(still, { vector: jolt, atMilliseconds: 1020 });
    expect(stillFor(moved)).toBe(0);
    expect(isStill(moved)).toBe(false);
    const after = (seconds: number) =>
      all(
        stream(seconds, () => at(3), { fromMilliseconds: 1040 }),
        moved,
      );
    expect(isStill(after(STILL_MILLISECONDS / 1000 - 0.05))).toBe(false);
    expect(isStill(after(1))).toBe(true);
    expect(tiltFrom(upright, after(1)!.smoothed).degrees).toBeCloseTo(3, 1);
  });

  it('shaken sideways, where the length of gravity hardly changes, it is no angle either', () => {
    const shaken = stream(2, (second) => ({
      x: 3 * Math.sin(second * 2 * Math.PI * 4),
      y: 9.81,
      z: 0,
    }));
    const following = all(shaken);
    const counted = shaken.filter((_, index) => isStill(all(shaken.slice(0, index + 1))));
    expect(isStill(following)).toBe(false);
    expect(counted.length).toBeLessThan(20);
  });

  it('a swing through upright is no shin at rest', () => {
    const swung = stream(1, (second) => at(60 * second));
    expect(swung.some((_, index) => index > 25 && isStill(all(swung.slice(0, index + 1))))).toBe(
      false,
    );
  });

  it('after a gap it begins anew, and what was before counts nothing', () => {
    const before = all(stream(1, () => at(40)));
    const vector = at(5);
    const back = followed(before, { vector, atMilliseconds: 1001 + DROPPED_OUT_MILLISECONDS });
    expect(isStill(back)).toBe(false);
    expect(tiltFrom(upright, back!.smoothed).degrees).toBeCloseTo(5, 3);
  });

  it('a reading that is no number, or a clock set back, poisons nothing', () => {
    const before = all(stream(1, () => at(4)));
    for (const bad of [NaN, Infinity]) {
      const vector = { x: bad, y: 0, z: 0 };
      expect(followed(before, { vector, atMilliseconds: 1020 })).toBe(before);
    }
    const back = followed(before, { vector: at(4), atMilliseconds: 0 });
    expect(tiltFrom(upright, back!.smoothed).degrees).toBeCloseTo(4, 3);
  });
});

describe('what may be said of an angle', () => {
  const read = (degrees: number, uncertainDegrees = 1.5) => ({ degrees, uncertainDegrees });

  it.each([
    [0, 'within'],
    [4, 'within'],
    [5, 'within'],
    [5.1, 'close'],
    [10, 'close'],
    [14.9, 'close'],
    [15, 'outside'],
    [40, 'outside'],
  ])('a shin at %d degrees is %s', (degrees, verdict) => {
    expect(shinVerdict(read(degrees))).toBe(verdict);
  });

  it.each([
    [170, 'within'],
    [160, 'within'],
    [159, 'close'],
    [151, 'close'],
    [150, 'outside'],
  ])('an arm at %d degrees, where 155 may pass, is %s', (degrees, verdict) => {
    expect(armVerdict(read(degrees), 155)).toBe(verdict);
  });

  it('is never graded on less than 5 degrees, nor on less than it may be off', () => {
    fc.assert(
      fc.property(tilt, fc.double({ min: 0, max: 20, noNaN: true }), (degrees, uncertain) => {
        const least = Math.max(5, uncertain);
        const each = read(degrees, uncertain);
        if (Math.abs(degrees - 10) < least) expect(shinVerdict(each)).toBe('close');
        if (Math.abs(degrees - 155) < least) expect(armVerdict(each, 155)).toBe('close');
      }),
    );
  });

  it('of a set the worst pause counts, and nothing where most were not read', () => {
    expect(worstOf([read(3), read(16), null])?.degrees).toBe(16);
    expect(worstOf([read(3), null, null])).toBeNull();
    expect(worstOf([null])).toBeNull();
    expect(worstOf([])).toBeNull();
  });
});

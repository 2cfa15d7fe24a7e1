import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HELD_MILLISECONDS, SETTING, settingAfter, taken } from '../../../src/domain/tilt/setting';
import { tiltFrom } from '../../../src/domain/tilt/line';
import type { Sample } from '../../../src/domain/tilt/following';
import { atRest, noiseOf, PLAIN, stream, type Limb } from './streams';

const after = (samples: Sample[], from = SETTING) => samples.reduce(settingAfter, from);
const limb = (change: Partial<Limb> = {}) =>
  atRest({ tilt: 0, towards: 0, roll: 0, ...change }, PLAIN);
const held = HELD_MILLISECONDS / 1000 + 0.1;
const still = (fromSeconds: number, change: Partial<Limb> = {}, seed = 1) =>
  stream(held, () => limb(change), {
    fromMilliseconds: fromSeconds * 1000,
    noise: noiseOf(seed),
    amplitude: 0.1,
  });
const walk = (fromSeconds: number) =>
  stream(1, (second) => ({ x: 2, y: 9.8 + 3 * Math.sin(second * 20), z: 0 }), {
    fromMilliseconds: fromSeconds * 1000,
  });

describe('set hands free', () => {
  it('holding still along the wall, turning round and holding still again sets the line', () => {
    fc.assert(
      fc.property(fc.nat(), fc.double({ min: -4, max: 4, noNaN: true }), (seed, lean) => {
        const first = after(still(0, { tilt: lean }, seed));
        expect(first.at).toBe('turning');
        const second = after([...walk(3.2), ...still(4.3, { tilt: lean, roll: 180 }, seed)], first);
        expect(second.at).toBe('set');
        if (second.at !== 'set') return;
        expect(tiltFrom(second.line, limb()).degrees).toBeLessThan(0.7);
      }),
      { numRuns: 25 },
    );
  });

  it('is not taken while the phone lies flat, nor before it was turned', () => {
    expect(after(still(0, { tilt: 90 })).at).toBe('first');
    const first = after(still(0));
    expect(after(still(3.2), first).at).toBe('turning');
  });

  it('somebody may take a step sooner, and is told where that made no line', () => {
    const first = taken(after(still(0).slice(0, 20)));
    expect(first.at).toBe('turning');
    expect(taken(SETTING)).toBe(SETTING);
    const across = taken(after(still(4, { tilt: 90 }), first));
    expect(across).toMatchObject({ at: 'failed', problem: 'across' });
    expect(taken(across)).toBe(across);
  });
});

import { describe, expect, it, vi } from 'vitest';
import { createVirtualClock } from '../../src/cli/virtualClock';
import type { TiltTelling } from '../../src/ports';
import { createDeviceTilt } from '../../src/tilt/deviceTilt';
import type { MotionWindow } from '../../src/tilt/motionWindow';
import { fakeMotion, type Way } from './fakeMotion';

const UP = { x: 0, y: 9.81, z: 0 };

function enter(ways: Way[], change: Partial<MotionWindow> = {}) {
  const motion = fakeMotion(ways, change);
  const clock = createVirtualClock(1_000_000);
  const tilt = createDeviceTilt({ scope: motion.scope, clock });
  const told: TiltTelling[] = [];
  const leave = tilt.listen((telling) => told.push(telling));
  return { motion, clock, tilt, told, leave };
}
const settle = async () => {
  for (let turn = 0; turn < 10; turn += 1) await Promise.resolve();
};
/** Opens it; a sensor that is silent runs out of time. */
async function opened(place: ReturnType<typeof enter>, moves: boolean) {
  const answer = place.tilt.open();
  for (let turn = 0; turn < 4; turn += 1) {
    await settle();
    if (moves) place.motion.move(UP);
    else place.clock.advance(2100);
  }
  return answer;
}

describe('the motion sensor of a device', () => {
  it.each([
    [['GravitySensor', 'Accelerometer', 'devicemotion'], ['GravitySensor']],
    [['Accelerometer', 'devicemotion'], ['Accelerometer']],
    [['devicemotion'], ['devicemotion']],
  ] as [Way[], Way[]][])(
    'of %j uses %j, and tells where the phone is, and when',
    async (ways, used) => {
      const place = enter(ways);
      expect(await opened(place, true)).toBeNull();
      expect(place.motion.begun).toEqual(used);
      place.clock.advance(20);
      place.motion.move({ x: 1, y: 2, z: 3 });
      expect(place.told.at(-1)).toEqual({
        type: 'reading',
        sample: { vector: { x: 1, y: 2, z: 3 }, atMilliseconds: 1_000_020 },
      });
    },
  );

  it.each([
    ['insecure', ['devicemotion'], { isSecureContext: false }],
    ['no-sensor', [], {}],
    ['no-sensor', ['GravitySensor', 'devicemotion'], {}],
    [
      'denied',
      ['devicemotion'],
      { DeviceMotionEvent: { requestPermission: async () => 'denied' } },
    ],
    [
      'denied',
      ['devicemotion'],
      { DeviceMotionEvent: { requestPermission: () => Promise.reject(new Error('no tap')) } },
    ],
  ] as [string, Way[], Partial<MotionWindow>][])('says %s of %j %j', async (why, ways, change) => {
    const place = enter(ways, change);
    expect(await opened(place, false)).toBe(why);
    expect(place.motion.isRunning()).toBe(false);
  });

  it('asks within the tap, before anything is waited for', () => {
    const requestPermission = vi.fn(async () => 'granted' as const);
    const { tilt } = enter(['devicemotion'], { DeviceMotionEvent: { requestPermission } });
    void tilt.open();
    expect(requestPermission).toHaveBeenCalledTimes(1);
  });

  it.each([
    ['NotReadableError', 'no-sensor'],
    ['NotAllowedError', 'denied'],
  ])(
    'goes on to the next where one ends in %s, and says %s where that was all',
    async (name, why) => {
      const place = enter(['GravitySensor', 'Accelerometer', 'devicemotion']);
      place.motion.failFromNow(name);
      expect(await opened(place, true)).toBeNull();
      expect(place.motion.begun).toEqual(['GravitySensor', 'Accelerometer', 'devicemotion']);
      const alone = enter(['GravitySensor', 'Accelerometer']);
      alone.motion.failFromNow(name);
      expect(await opened(alone, false)).toBe(why);
    },
  );

  it('events without numbers are no readings', async () => {
    const place = enter(['devicemotion']);
    const answer = place.tilt.open();
    await settle();
    place.motion.tellNothing();
    place.clock.advance(2100);
    expect(await answer).toBe('no-sensor');
    expect(place.told).toEqual([]);
  });

  it('that breaks is told as lost, once, and can be opened again', async () => {
    const place = enter(['GravitySensor']);
    await opened(place, true);
    place.motion.break('NotReadableError');
    expect(place.told.filter(({ type }) => type === 'lost')).toEqual([
      { type: 'lost', why: 'no-sensor' },
    ]);
    expect(place.motion.isRunning()).toBe(false);
    expect(await opened(place, true)).toBeNull();
  });

  it('goes on telling a phone that is so still that the browser tells nothing new', async () => {
    const place = enter(['GravitySensor']);
    await opened(place, true);
    const before = place.told.length;
    place.clock.advance(1000);
    expect(place.told.length - before).toBeGreaterThan(40);
    expect(place.told.at(-1)).toMatchObject({ type: 'reading', sample: { vector: UP } });
    place.motion.break('NotReadableError');
    const lost = place.told.length;
    place.clock.advance(1000);
    expect(place.told).toHaveLength(lost);
  });

  it('closed, it is off; who has left hears nothing', async () => {
    const place = enter(['devicemotion']);
    await opened(place, true);
    place.leave();
    const before = place.told.length;
    place.motion.move(UP);
    expect(place.told).toHaveLength(before);
    place.tilt.close();
    expect(place.motion.isRunning()).toBe(false);
  });
});

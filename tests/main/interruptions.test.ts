import { afterEach, describe, expect, it, vi } from 'vitest';
import { nextStep } from '../../src/domain/deciding/deciding';
import { interruptible, type Interruption } from '../../src/main/interruptions';
import type { Clock, Phase } from '../../src/ports';
import { book, openBench, type BenchOptions } from '../session/bench';

const HOUR = 3_600_000;
const RESUME = { command: 'resume' } as const;

/** A session on a device that may sleep; `wall` moves alone where its page's clock stands meanwhile. */
function onDevice(options: BenchOptions & { stands?: boolean; sound?: BaseAudioContext } = {}) {
  let slept = 0;
  let wallOnly = 0;
  const told: Interruption[] = [];
  const bench = openBench({
    ...options,
    around({ ear, clock }) {
      const sleepy: Clock = { ...clock, now: () => clock.now() + slept };
      vi.spyOn(Date, 'now').mockImplementation(() => sleepy.now() + wallOnly);
      const { sound = null } = options;
      return interruptible({ ear, clock: sleepy, sound }, (why) => told.push(why));
    },
  });
  const shown = () => bench.of('phase').at(-1)?.phase;
  return {
    ...bench,
    told,
    shown,
    sleep(milliseconds: number) {
      if (options.stands) wallOnly += milliseconds;
      else slept += milliseconds;
    },
    until: (phase: Phase) => {
      const from = bench.events.length;
      bench.clock.runUntil(
        () =>
          bench.events.slice(from).some((event) => event.type === 'phase' && event.phase === phase),
        HOUR,
      );
    },
  };
}

type Device = ReturnType<typeof onDevice>;
const at = (phase: Phase, seconds: number) => (device: Device) => {
  device.until(phase);
  device.seconds(seconds);
};
/** Past both checks, of which one failed: in the set of a drill, or in the rest before its second. */
const inSet = (device: Device) => {
  device.untilAsked();
  device.hear('knees forward');
  device.until('repeating');
  device.seconds(1);
};
/** Overhead, with the arms too short in each check, until a drill of it has a rest. */
const inRest = (device: Device) => {
  for (let asked = 0; asked < 8 && device.shown() !== 'resting'; asked += 1) {
    device.untilAsked();
    device.hear('short');
    const from = device.of('listen').length;
    const isAsked = () => device.of('listen').length > from;
    device.clock.runUntil(() => isAsked() || device.shown() === 'resting', HOUR);
  }
  expect(device.shown()).toBe('resting');
};

afterEach(() => void vi.restoreAllMocks());

describe('a device that slept for an hour', () => {
  const faults: [string, (device: Device) => void, Parameters<typeof onDevice>[0]?][] = [
    ['while it spoke', at('cueing', 0.3)],
    ['in a set', inSet],
    ['in a rest', inRest, { routine: 'overhead' }],
    ['at an open question', at('listening', 3)],
    ['at an open question, its own clock too', at('listening', 3), { stands: true }],
  ];
  it.each(faults)('%s waits, and counts nothing that it missed', (_, bring, options) => {
    const device = onDevice(options);
    bring(device);
    const before = device.events.length;
    const counted = device.counts.length;
    device.sleep(HOUR);
    device.seconds(5);
    expect(device.told).toEqual(['asleep']);
    expect(device.shown()).toBe('paused');
    expect(device.counts).toHaveLength(counted);
    const since = device.events.slice(before);
    expect(since.filter(({ type }) => type === 'beat')).toEqual([]);
    // That it is paused is all that is said, and nobody is asked again and again meanwhile.
    expect(since.filter(({ type }) => type === 'cue')).toHaveLength(1);
    device.seconds(600);
    expect(since.filter(({ type }) => type === 'cue')).toHaveLength(1);
  });

  it('in a hold begins that hold again', () => {
    const device = onDevice({ routine: 'overhead' });
    at('exhaling', 2)(device);
    const counted = device.of('beat').length;
    expect(counted).toBeGreaterThan(0);
    device.sleep(HOUR);
    device.seconds(5);
    device.hand(RESUME);
    device.seconds(1.5);
    expect(device.shown()).toBe('exhaling');
    expect(device.of('beat')[counted]?.count).toBe(1);
  });

  it('asks its open question anew, and no time of it counts for the area', () => {
    const device = onDevice();
    at('listening', 3)(device);
    const asleepAtSeconds = device.events.at(-1)?.atSeconds ?? 0;
    device.sleep(HOUR);
    device.seconds(5);
    device.hand(RESUME);
    device.untilAsked('check/hinge-unloaded');
    const [paused] = device.logged('paused');
    expect(paused?.atSeconds).toBeLessThan(asleepAtSeconds + 10);
    expect(device.logged('resumed')[0]?.atSeconds).toBeGreaterThan(3600);
    device.hear('clean');
    // Not 6.1, the time of the area: an hour is more than its 25 minutes.
    expect(nextStep(book, device.entries).rule).toBe('10.2');
    device.untilAsked('check/hinge-bar');
  });

  it('is not taken for asleep where the page was busy for ten seconds', () => {
    const device = onDevice();
    at('listening', 3)(device);
    device.sleep(10_000);
    device.seconds(3);
    expect(device.told).toEqual([]);
    expect(device.shown()).not.toBe('paused');
  });

  it('stops at once, and puts "stop" on record after the pause', () => {
    const device = onDevice();
    at('listening', 3)(device);
    device.sleep(HOUR);
    device.hand({ command: 'stop' });
    expect(device.tones.at(-1)).toBe('halted');
    const types = device.entries.map(({ type }) => type);
    expect(types.indexOf('paused')).toBeGreaterThan(0);
    expect(types.indexOf('halted')).toBeGreaterThan(types.indexOf('paused'));
  });
});

describe('something else takes the sound, as a call does', () => {
  it('the session waits, silent, and goes on at its question when it is told to', () => {
    const device = onDevice();
    at('listening', 3)(device);
    device.ear({ type: 'deaf', why: 'interrupted' });
    device.seconds(60);
    expect(device.told).toEqual(['interrupted']);
    expect(device.shown()).toBe('paused');
    device.ear({ type: 'hears-again' });
    device.seconds(60);
    expect(device.shown()).toBe('paused');
    device.hear('resume');
    device.untilAsked('check/hinge-unloaded');
  });

  it('where the sound of the page stands it waits too, but not for a change of the headset', () => {
    const sound = Object.assign(new EventTarget(), { state: 'running' });
    const device = onDevice({ sound: sound as unknown as BaseAudioContext });
    const turn = (state: string) => {
      sound.state = state;
      sound.dispatchEvent(new Event('statechange'));
    };
    at('listening', 3)(device);
    turn('suspended');
    device.seconds(0.5);
    turn('running');
    device.seconds(10);
    expect(device.told).toEqual([]);
    turn('interrupted');
    device.seconds(2);
    expect(device.told).toEqual(['interrupted']);
    expect(device.shown()).toBe('paused');
  });
});

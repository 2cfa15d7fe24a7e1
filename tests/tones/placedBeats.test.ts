import { describe, expect, it } from 'vitest';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { perceivedBeatSeconds } from '../../src/tones/perceivedBeat';
import { createPlacedBeats } from '../../src/tones/placedBeats';

const STARTED = Date.UTC(2026, 0, 5, 9);
/** A phone's sound device takes its samples in blocks; its clock stands still between two. */
const BLOCK_SECONDS = 0.0213;
const SAMPLE_RATE = 16000;

/** Words that take 0.4 s each, and a sound device whose clock can be seen and suspended. */
function room({ cannotMake = false, hissSeconds = 0, blockSeconds = BLOCK_SECONDS } = {}) {
  const awake = createVirtualClock(STARTED);
  let sleptSeconds = 0;
  const clock = { ...awake, now: () => awake.now() + 1000 * sleptSeconds };
  const begun: { samples: number; atSeconds: number; cut: boolean; volume: number }[] = [];
  let state = 'running';
  let behindSeconds = 3.21;
  let hurriedSeconds = 0;
  let heldSeconds: number | null = null;
  let wasReplaced = false;
  const trueSeconds = () => (clock.now() - STARTED) / 1000 - behindSeconds;
  const context = {
    get state() {
      return state;
    },
    get currentTime() {
      if (heldSeconds !== null) return heldSeconds;
      return Math.floor(trueSeconds() / blockSeconds) * blockSeconds + hurriedSeconds;
    },
    createBuffer: (_: number, samples: number) => ({ samples, copyToChannel: () => undefined }),
    createGain: () => ({
      gain: { value: 1, setValueAtTime: () => undefined, linearRampToValueAtTime: () => undefined },
      connect: (to: unknown) => to,
      disconnect: () => undefined,
    }),
    createBufferSource() {
      let beat: (typeof begun)[number];
      let volume = 1;
      return {
        buffer: { samples: 0 },
        connect(to: { gain: { value: number } }) {
          volume = to.gain.value;
          return to;
        },
        start(atSeconds: number) {
          beat = { samples: this.buffer.samples, atSeconds, cut: false, volume };
          begun.push(beat);
        },
        stop: () => (beat.cut = true),
      };
    },
  };
  const beats = createPlacedBeats({
    make: () =>
      cannotMake
        ? Promise.reject(new Error('no voice'))
        : Promise.resolve({
            samples: Float32Array.from({ length: 0.4 * SAMPLE_RATE }, (_, at) =>
              at < hissSeconds * SAMPLE_RATE ? 0.01 : 0.5,
            ),
            sampleRate: SAMPLE_RATE,
          }),
    output: () =>
      ({ context: wasReplaced ? Object.create(context) : context, destination: {} }) as never,
    clock,
    volume: () => 0.4,
  });
  return {
    clock,
    beats,
    begun,
    /** When each sounds, in milliseconds after the start. */
    sounded: () => begun.map(({ atSeconds }) => (atSeconds + behindSeconds) * 1000),
    /** Those that nobody took back. */
    left: () => begun.filter(({ cut }) => !cut),
    suspend(seconds: number) {
      state = 'suspended';
      clock.advance(seconds * 1000);
      behindSeconds += seconds;
      state = 'running';
    },
    setState: (next: string) => (state = next),
    /** The sound's clock stands, and its state says nothing of it. */
    hold(seconds: number) {
      heldSeconds = context.currentTime;
      clock.advance(seconds * 1000);
      behindSeconds += seconds;
      heldSeconds = null;
    },
    /** The page is frozen and its sound is suspended; nobody tells it. */
    sleep(seconds: number) {
      sleptSeconds += seconds;
      behindSeconds += seconds;
    },
    /** Another context takes the place of this one, which goes on. */
    replace: () => (wasReplaced = true),
    /** Between two readings, the sound falls behind by so much. */
    stand: (seconds: number) => (behindSeconds += seconds),
    /** The device fell behind and fetches so much at once, before it is due. */
    hurry(seconds: number) {
      hurriedSeconds = seconds;
      clock.advance(50);
      hurriedSeconds = 0;
    },
  };
}
const WORD = 0.4 * SAMPLE_RATE;
const prepared = async (options?: Parameters<typeof room>[0]) => {
  const here = room(options);
  here.beats.prepare(['One.', 'Two.']);
  here.clock.advance(500);
  await Promise.resolve().then(() => undefined);
  await Promise.resolve();
  return here;
};

describe('the moment at which a word is felt to fall', () => {
  const RATE = 16000;
  /** A soft hiss of so long, then a loud vowel. */
  const word = (hissSeconds: number) =>
    Float32Array.from({ length: RATE * 0.6 }, (_, at) =>
      at < hissSeconds * RATE ? 0.05 * Math.sin(at * 2.5) : 0.6 * Math.sin(at / 12),
    );

  it('is the rise of its vowel, however long its first consonant', () => {
    for (const hissSeconds of [0, 0.05, 0.13])
      expect(Math.abs(perceivedBeatSeconds(word(hissSeconds), RATE) - hissSeconds)).toBeLessThan(
        0.012,
      );
    expect(perceivedBeatSeconds(new Float32Array(1000), RATE)).toBe(0);
  });
});

describe('counts and beats', () => {
  it('sound within 4 ms of their time and of each other, though the device tells its time in blocks of 21', async () => {
    const { beats, clock, sounded } = await prepared();
    const due = Array.from({ length: 60 }, (_, second) => 1000 + second * 1000);
    for (const milliseconds of due) {
      // Timers of a busy page: some tens of milliseconds late, never the same.
      const late = (milliseconds * 7919) % 90;
      clock.advance(STARTED + milliseconds - 120 + late - clock.now());
      beats.place('One.', STARTED + milliseconds);
    }
    const off = sounded().map((at, index) => at - (due[index] ?? 0));
    expect(off).toHaveLength(60);
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(4);
    expect(Math.max(...off) - Math.min(...off)).toBeLessThan(4);
  });

  it('are no later for a block that was fetched before it was due', async () => {
    const { beats, clock, hurry, sounded } = await prepared();
    clock.advance(1500);
    hurry(0.03);
    const due = clock.now() + 200;
    beats.place('One.', due);
    expect(Math.abs((sounded()[0] ?? 0) - (due - STARTED))).toBeLessThan(5);
  });

  it('are words where they are ready, and the tone of a beat where they are not', async () => {
    const { beats, begun } = await prepared();
    beats.place('Two.', STARTED + 1000);
    beats.place('Three.', STARTED + 2000);
    beats.place(null, STARTED + 3000);
    const [word, unready, tone] = begun;
    expect(word?.samples).toBe(WORD);
    expect(unready?.samples).toBe(tone?.samples);
    expect(tone?.samples).not.toBe(WORD);
    expect(word?.volume).toBe(0.4);
  });

  it('begin before their moment by as much as their first consonant is long', async () => {
    const { beats, sounded } = await prepared({ hissSeconds: 0.1 });
    beats.place('One.', STARTED + 2000);
    expect(Math.abs((sounded()[0] ?? 0) - 1900)).toBeLessThan(20);
  });

  it('are tones where there is no voice at all', async () => {
    const { beats, begun } = await prepared({ cannotMake: true });
    beats.place('One.', STARTED + 1000);
    expect(begun).toHaveLength(1);
    expect(begun[0]?.samples).not.toBe(WORD);
  });

  it('are right again half a second after the sound of a busy device stood', async () => {
    for (const standsSeconds of [0.011, 0.06]) {
      const { beats, clock, sounded, hold } = await prepared();
      clock.advance(2000);
      hold(standsSeconds);
      clock.advance(600);
      const due = clock.now() + 200;
      beats.place('One.', due);
      expect(Math.abs((sounded()[0] ?? 0) - (due - STARTED))).toBeLessThan(5);
    }
  });

  it('are right again after a phone call stopped the sound for a while', async () => {
    const { beats, clock, sounded, suspend } = await prepared();
    beats.place('One.', STARTED + 1000);
    clock.advance(500);
    suspend(20);
    beats.prepare(['One.']);
    clock.advance(400);
    const due = clock.now() + 120;
    beats.place('One.', due);
    expect(Math.abs((sounded().at(-1) ?? 0) - (due - STARTED))).toBeLessThan(5);
  });

  it.each(['hold', 'stand'] as const)(
    'that are placed already are moved where the sound of a busy device stood, and no later again (%s)',
    async (how) => {
      for (const standsSeconds of [0.05, 0.09]) {
        const here = await prepared();
        const { beats, clock, begun, sounded } = here;
        clock.advance(2000);
        const due = clock.now() + 200;
        beats.place('One.', due);
        here[how](standsSeconds);
        // Two readings.
        clock.advance(51);
        expect(begun.slice(0, -1).every(({ cut }) => cut)).toBe(true);
        expect(begun.at(-1)?.cut).toBe(false);
        expect(Math.abs((sounded().at(-1) ?? 0) - (due - STARTED))).toBeLessThan(10);
        clock.advance(1000);
        const moved = begun.length;
        clock.advance(2000);
        expect(begun).toHaveLength(moved);
      }
    },
  );

  it('stay where they are for one late reading of the clock', async () => {
    for (const lateSeconds of [0.05, 0.15]) {
      const { beats, clock, begun, stand } = await prepared();
      clock.advance(2000);
      beats.place('One.', clock.now() + 200);
      stand(lateSeconds);
      clock.advance(25);
      stand(-lateSeconds);
      clock.advance(1000);
      expect(begun).toHaveLength(1);
    }
  });

  it.each([0.003, 0.0213, 0.04])('are never moved for a block of %s s', async (blockSeconds) => {
    const { beats, clock, begun } = await prepared({ blockSeconds });
    clock.advance(2000);
    for (let count = 1; count <= 60; count += 1) {
      beats.place('One.', clock.now() + 200);
      clock.advance(1000);
      expect(begun).toHaveLength(count);
    }
  });

  it('that were moved fall silent when they are taken back', async () => {
    const { beats, clock, begun, left, stand } = await prepared();
    clock.advance(2000);
    const cancel = beats.place('One.', clock.now() + 200);
    stand(0.06);
    clock.advance(100);
    expect(begun.length).toBeGreaterThan(1);
    expect(left()).toHaveLength(1);
    cancel();
    expect(left()).toEqual([]);
    clock.advance(1000);
    expect(left()).toEqual([]);
  });

  it.each([
    { which: 'has not begun', inMilliseconds: 200, ringsAfter: 50 },
    { which: 'begins as the phone rings', inMilliseconds: 60, ringsAfter: 50 },
    { which: 'is being said', inMilliseconds: 10, ringsAfter: 100 },
    { which: 'is being said, but late', inMilliseconds: -200, ringsAfter: 300 },
  ])('from before a phone call are not heard after it: one that $which', async (one) => {
    for (const call of ['suspend', 'hold', 'sleep'] as const) {
      const here = await prepared();
      here.clock.advance(2000);
      here.beats.place('One.', here.clock.now() + one.inMilliseconds);
      here.clock.advance(one.ringsAfter);
      here[call](20);
      here.clock.advance(25);
      expect([call, here.left()]).toEqual([call, []]);
      here.clock.advance(1000);
      expect([call, here.left()]).toEqual([call, []]);
    }
  });

  it('are not heard where the sound they were placed in was replaced', async () => {
    const { beats, clock, left, replace } = await prepared();
    beats.place('One.', clock.now() + 200);
    replace();
    clock.advance(25);
    expect(left()).toEqual([]);
  });

  it('stay where they are though several are placed at one late reading', async () => {
    const { beats, clock, begun, sounded, stand } = await prepared();
    clock.advance(2000);
    stand(0.05);
    const due = clock.now() + 200;
    for (const text of ['One.', 'Two.', null]) beats.place(text, due);
    stand(-0.05);
    clock.advance(1000);
    expect(begun).toHaveLength(3);
    for (const at of sounded()) expect(Math.abs(at - (due - STARTED))).toBeLessThan(5);
  });

  it('are left out while sound is off, and where the page slept through their time', async () => {
    const { beats, begun, clock, setState } = await prepared();
    setState('suspended');
    beats.place('One.', clock.now() + 120);
    setState('running');
    beats.place('One.', clock.now() - 1000);
    expect(begun).toHaveLength(0);
  });

  it('fall silent when they are taken back', async () => {
    const { beats, begun, clock } = await prepared();
    const cancel = beats.place('One.', clock.now() + 120);
    expect(begun[0]?.cut).toBe(false);
    cancel();
    expect(begun[0]?.cut).toBe(true);
  });
});

import { beforeEach, describe, expect, it, vi } from 'vitest';
import { secondsOf } from '../../src/cli/durations';
import { bookOf } from '../../src/cli/verb';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { NO_REPLY, type Command } from '../../src/domain/hearing/reply';
import type { Hearing } from '../../src/ports';
import { createSeatStore } from '../../src/screens/seat';
import { createWarmUpPlace } from '../../src/main/warmUp/warmUpPlace';
import { sharedManner } from '../../src/voice/manner';
import { STATE } from '../screens/fakeSeat';

const book = bookOf();
const CHOICE = { id: 'before-the-bar', minutes: null, listen: 'hands' } as const;

function place({ longer = 1 } = {}) {
  const clock = createVirtualClock(Date.UTC(2031, 2, 8, 9, 0, 0));
  const store = createSeatStore({ ...STATE, where: 'people', book });
  const manner = sharedManner();
  const listeners = new Set<(hearing: Hearing) => void>();
  const awake = { now: 0 };
  const sounding = new Set<object>();
  const atOnce = { most: 0, countsOverCues: 0 };
  const lines: string[] = [];
  const warmUp = createWarmUpPlace({
    parts: {
      ...{ book, clock, manner, secondsOf, isHeard: true },
      coach: { book: () => book, callWord: () => null } as never,
      voice: {
        say(text, { started, ended }) {
          const line = {};
          lines.push(text);
          sounding.add(line);
          atOnce.most = Math.max(atOnce.most, sounding.size);
          started?.();
          const timer = clock.setTimeout(
            () => {
              sounding.delete(line);
              ended('spoken');
            },
            secondsOf(text) * 1000 * manner.now().stretch * longer,
          );
          return () => {
            clock.clearTimeout(timer);
            sounding.delete(line);
          };
        },
        prepare: () => undefined,
        adjust: manner.adjust,
        stretch: () => manner.now().stretch,
        duck: () => undefined,
      },
      tones: { play: () => undefined, hush: () => undefined } as never,
      beats: {
        place(text) {
          if (text !== null && sounding.size > 0) atOnce.countsOverCues += 1;
          return () => undefined;
        },
        prepare: () => undefined,
      },
      music: { level: () => undefined } as never,
    },
    store,
    listening: {
      attend: () => undefined,
      listen(listener) {
        listeners.add(listener);
        return () => listeners.delete(listener);
      },
    },
    begins: () => undefined,
    stays() {
      awake.now += 1;
      return () => void (awake.now -= 1);
    },
  });
  const reply = (command: Command) => {
    for (const listener of [...listeners])
      listener({ type: 'reply', reply: { ...NO_REPLY, command }, prompt: 'idle' });
  };
  const tell = (hearing: Hearing) => {
    for (const listener of [...listeners]) listener(hearing);
  };
  const hear = (text: string) => tell({ type: 'words', text, confidence: 1, prompt: 'idle' });
  const shown = () => store.state().warmUp;
  return {
    warmUp,
    store,
    clock,
    tell,
    atOnce,
    hear,
    lines,
    manner,
    awake,
    reply,
    shown,
    isSilent: () => sounding.size === 0,
  };
}

/** What leads a group is fetched behind the page, in true time. */
const until = (holds: () => boolean) => vi.waitUntil(holds, { timeout: 15_000, interval: 5 });

let at: ReturnType<typeof place>;
beforeEach(async () => {
  at = place();
  at.warmUp.show();
  await until(() => (at.shown()?.offers.length ?? 0) > 0);
});
const begin = async () => {
  at.warmUp.begin(CHOICE);
  await until(() => at.shown()?.stage === 'running');
};

describe('a group is led at the seat', () => {
  it('each warm-up is offered with what it takes to a group, and the least', () => {
    const offers = at.shown()?.offers ?? [];
    expect(offers.map(({ id }) => id)).toEqual(Object.keys(book.warmUps));
    for (const { seconds, leastSeconds } of offers) {
      expect(seconds).toBeGreaterThan(480);
      expect(leastSeconds).toBeGreaterThan(20);
      expect(leastSeconds).toBeLessThan(200);
    }
  });

  it('shows the turn that is on and the next, and whether it is held', async () => {
    await begin();
    expect(at.awake.now).toBe(1);
    at.clock.advance(30_000);
    expect(at.shown()?.turn).toEqual({
      ...{ name: 'long breaths out', number: 1, of: 9, next: 'the wall hinge' },
    });
    at.reply('pause');
    expect(at.shown()).toMatchObject({ isHeld: true, asksEnd: false });
    expect(at.isSilent()).toBe(true);
    at.reply('resume');
    expect(at.shown()).toMatchObject({ isHeld: false });
  });

  it('"stop" and "yes" end it; the screen may sleep again, and one person is spoken to as before', async () => {
    const usual = at.manner.now().stretch;
    await begin();
    at.clock.advance(20_000);
    at.reply('stop');
    expect(at.shown()).toMatchObject({ asksEnd: true, stage: 'running' });
    at.clock.advance(6000);
    at.reply('yes');
    expect(at.shown()).toMatchObject({ stage: 'over', ended: 'stopped' });
    expect(at.awake.now).toBe(0);
    at.warmUp.leave();
    expect(at.store.state()).toMatchObject({ where: 'people', warmUp: null });
    expect(at.manner.now().stretch).toBeLessThan(usual);
    expect(at.manner.now().stretch).toBe(1);
  });

  it('left while it plays it is silent at once, and says nothing more', async () => {
    await begin();
    at.clock.advance(8000);
    at.warmUp.leave();
    expect(at.isSilent()).toBe(true);
    expect(at.awake.now).toBe(0);
    at.clock.advance(600_000);
    expect(at.isSilent()).toBe(true);
    expect(at.store.state().warmUp).toBeNull();
  });

  it('left while it is still on its way it never begins', async () => {
    at.warmUp.begin(CHOICE);
    at.warmUp.leave();
    for (let turn = 0; turn < 100; turn += 1) await new Promise(setImmediate);
    expect(at.store.state()).toMatchObject({ where: 'people', warmUp: null });
    expect(at.awake.now).toBe(0);
  });

  it('begun twice by two taps it plays once', async () => {
    at.warmUp.begin(CHOICE);
    at.warmUp.begin(CHOICE);
    await until(() => at.shown()?.stage === 'running');
    for (let turn = 0; turn < 100; turn += 1) await new Promise(setImmediate);
    expect(at.awake.now).toBe(1);
  });

  it('ends by itself when it was promised to', async () => {
    at.warmUp.begin({ ...CHOICE, minutes: 5 });
    await until(() => at.shown()?.stage === 'running');
    expect(at.shown()?.endsAtMilliseconds).toBe(Date.UTC(2031, 2, 8, 9, 5, 0));
    at.clock.advance(5 * 60_000 - 100);
    expect(at.shown()?.stage).toBe('running');
    at.clock.advance(200);
    expect(at.shown()).toMatchObject({ stage: 'over', ended: 'completed' });
  });

  it('the one button of a remote goes on: to the next turn, or on with what is held; the other goes back', async () => {
    await begin();
    at.clock.advance(30_000);
    at.reply('ready');
    expect(at.shown()?.turn?.number).toBe(2);
    at.reply('pause');
    at.reply('ready');
    expect(at.shown()).toMatchObject({ isHeld: false, turn: { number: 2 } });
    at.clock.advance(1000);
    at.reply('undo');
    expect(at.shown()?.turn?.number).toBe(1);
  });

  it('a voice that takes much longer than planned never speaks over itself, nor over a count', async () => {
    at = place({ longer: 1.8 });
    at.warmUp.show();
    await until(() => (at.shown()?.offers.length ?? 0) > 0);
    await begin();
    at.clock.advance(900_000);
    expect(at.lines.length).toBeGreaterThan(20);
    expect(at.atOnce).toEqual({ most: 1, countsOverCues: 0 });
  });

  it('led by touch, the room commands nothing, but "stop" halts', async () => {
    await begin();
    at.clock.advance(30_000);
    at.hear('skip');
    expect(at.shown()?.turn?.number).toBe(1);
    at.hear('stop');
    expect(at.shown()).toMatchObject({ asksEnd: true });
  });

  it('a microphone that is lost is said aloud, and the turn is told anew', async () => {
    at.warmUp.begin({ ...CHOICE, listen: 'microphone' });
    await until(() => at.shown()?.stage === 'running');
    at.clock.advance(30_000);
    at.lines.length = 0;
    at.tell({ type: 'deaf', why: 'unplugged' });
    at.clock.advance(12_000);
    expect(at.lines[0]).toBe(book.lines['say.deaf']);
    expect(at.lines[1]).toBe('Next, long breaths out.');
  });
});

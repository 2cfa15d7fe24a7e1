import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { secondsOf } from '../../src/cli/durations';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { NO_REPLY, type Command } from '../../src/domain/hearing/reply';
import { createHands } from '../../src/ear/hands';
import { createRunning, type Running, type ToRun } from '../../src/main/running';
import type { Parts } from '../../src/main/parts';
import { memoryRecords } from '../../src/records/memoryRecords';
import { createSeatStore } from '../../src/screens/seat';
import { sharedManner, USUAL_MANNER, type KeptManners, type Manner } from '../../src/voice/manner';
import { STATE } from '../screens/fakeSeat';
import { book, openBench } from '../session/bench';

const QUIETER: Manner = { ...USUAL_MANNER, volume: 0.4 };
const SLOWER: Manner = { ...USUAL_MANNER, stretch: 1.27 };

let running: Running | null = null;
/** A page that nobody looks at: it keeps no screen on. */
beforeEach(() => {
  vi.stubGlobal('navigator', {});
  vi.stubGlobal('document', {
    ...{ visibilityState: 'hidden', addEventListener: vi.fn(), removeEventListener: vi.fn() },
  });
});
afterEach(() => {
  running?.end();
  vi.unstubAllGlobals();
});

/** A seat at which sessions run; `chosen` is whose begins next. */
function seated(chosen?: string) {
  const clock = createVirtualClock(Date.UTC(2031, 2, 8, 9));
  const hands = createHands();
  const kept = new Map<string | null, Manner>([
    [null, USUAL_MANNER],
    ['ada', SLOWER],
    ['ben', QUIETER],
  ]);
  const shelf: KeptManners = {
    load: (athlete) => kept.get(athlete) ?? USUAL_MANNER,
    save: (athlete, manner) => void kept.set(athlete, manner),
    keepOnly: () => undefined,
  };
  const manner = sharedManner(shelf);
  const parts = {
    ...{ book, clock, hands, manner, secondsOf, isHeard: false, records: memoryRecords() },
    tones: { play: () => undefined, hush: () => undefined, output: () => null },
    beats: { place: () => () => undefined, prepare: () => undefined },
    music: { level: () => undefined },
    voice: {
      say: (text: string, { ended }: { ended: (how: 'spoken') => void }) => {
        const timer = clock.setTimeout(() => ended('spoken'), secondsOf(text) * 1000);
        return () => clock.clearTimeout(timer);
      },
      ...{ prepare: () => undefined, duck: () => undefined, adjust: manner.adjust },
    },
  } as unknown as Parts;
  const made = createRunning({
    ...{ parts, store: createSeatStore(STATE), listening: hands },
    level: { forSession: () => ({}), leave: () => undefined },
    people: { forSession: () => (chosen === undefined ? {} : { person: chosen }) },
    visits: { look: () => Promise.resolve() },
    ...{ chooseWords: () => undefined, notAllArrived: () => undefined },
    tabs: { claim: () => Promise.resolve(true), release: () => undefined },
  });
  running = made;
  const start = (wanted: Partial<ToRun> = {}) =>
    made.start({ session: 'mon', routine: 'hinge', log: [], ...wanted });
  const say = (command: Command) => {
    clock.advance(500);
    hands.reply({ ...NO_REPLY, command });
  };
  return { start, say, manner, kept };
}

test('a session is spoken as its athlete wants to be spoken to, and what is asked for is kept for them', async () => {
  const { start, say, manner, kept } = seated('ada');
  expect(await start()).toBe(true);
  expect(manner.now()).toEqual(SLOWER);
  say('quieter');
  expect(kept.get('ada')).toEqual({ ...SLOWER, volume: 0.4 });
  expect(kept.get(null)).toEqual(USUAL_MANNER);
});

test('one of nobody, and a rehearsal whoever is chosen, are spoken as to nobody in particular', async () => {
  const nobody = seated();
  await nobody.start();
  expect(nobody.manner.now()).toEqual(USUAL_MANNER);
  const rehearsed = seated('ben');
  await rehearsed.start({ isRehearsal: true });
  expect(rehearsed.manner.now()).toEqual(USUAL_MANNER);
});

test('one that goes on is spoken as to the athlete and in the way of its beginning', async () => {
  const { entries } = openBench();
  const log = entries.map((entry) =>
    entry.type === 'started' ? { ...entry, person: 'ben', way: 'group' as const } : entry,
  );
  const { start, manner } = seated('ada');
  await start({ log });
  expect(manner.now().volume).toBe(QUIETER.volume);
  expect(manner.now().stretch).toBeGreaterThan(1.1);
});

import { describe, expect, it } from 'vitest';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { createLevelPlace } from '../../src/main/levelPlace';
import { NO_REPLY } from '../../src/domain/hearing/reply';
import type { Hearing, TiltTelling, TiltTrouble, ToneName } from '../../src/ports';
import { createSeatStore } from '../../src/screens/seat';
import type { Vector } from '../../src/domain/tilt/vector';
import { atRest, PLAIN } from '../domain/tilt/streams';
import { book as BOOK } from '../session/bench';
import { STATE } from '../screens/fakeSeat';

const LINE_SECONDS = 3;

/** The place with a sensor in the test's hand; each line takes three seconds to say. */
function enter(trouble: TiltTrouble | null = null) {
  const clock = createVirtualClock(0);
  const store = createSeatStore(STATE);
  const said: string[] = [];
  const tones: ToneName[] = [];
  const listeners = new Set<(telling: TiltTelling) => void>();
  let hear: (hearing: Hearing) => void = () => undefined;
  let isOpen = false;
  let isSilent = false;
  let lies: Vector = atRest({ tilt: 90, towards: 0, roll: 0 }, PLAIN);
  const place = createLevelPlace({
    parts: {
      book: BOOK,
      clock,
      tones: { play: (name) => tones.push(name), hush: () => undefined },
      voice: {
        say(text, { ended }) {
          said.push(text);
          const timer = clock.setTimeout(() => ended('spoken'), LINE_SECONDS * 1000);
          return () => clock.clearTimeout(timer);
        },
      },
    },
    store,
    sensor: {
      async open() {
        isOpen = trouble === null;
        return trouble;
      },
      close: () => {
        isOpen = false;
      },
      listen(onTelling) {
        listeners.add(onTelling);
        return () => listeners.delete(onTelling);
      },
    },
    listening: {
      attend: () => undefined,
      listen(onHearing) {
        hear = onHearing;
        return () => {
          hear = () => undefined;
        };
      },
    },
    unlockSound: () => undefined,
  });
  const tell = (telling: TiltTelling) => [...listeners].forEach((listener) => listener(telling));
  const next = () => {
    const sample = { vector: lies, atMilliseconds: clock.now() };
    if (!isSilent) tell({ type: 'reading', sample });
    clock.setTimeout(next, 20);
  };
  next();
  return {
    place,
    store,
    said,
    tones,
    level: () => store.state().level,
    isOpen: () => isOpen,
    seconds: (seconds: number) => clock.advance(seconds * 1000),
    upright: (roll = 0) => {
      lies = atRest({ tilt: 0, towards: 0, roll }, PLAIN);
    },
    flat: () => {
      lies = atRest({ tilt: 90, towards: 0, roll: 0 }, PLAIN);
    },
    shaken: () => {
      lies = { x: 3, y: 12, z: 0 };
    },
    silent: () => {
      isSilent = true;
    },
    lose: () => tell({ type: 'lost', why: 'no-sensor' }),
    hear: (hearing: Hearing) => hear(hearing),
  };
}
type Entered = ReturnType<typeof enter>;

async function ready(on: 'shin' | 'upper-arm' = 'shin'): Promise<Entered> {
  const entered = enter();
  entered.place.choose(on);
  // What understands comes in a file of its own.
  await import('../../src/domain/hearing/understanding');
  await Promise.resolve();
  return entered;
}
/** Both lines are said, the limb lies on the post and is held. */
function firstStep(entered: Entered) {
  entered.place.set();
  entered.seconds(2 * LINE_SECONDS);
  entered.upright();
  entered.seconds(3.5);
}
function turnRound(entered: Entered) {
  entered.shaken();
  entered.seconds(1);
  entered.upright(180);
  entered.seconds(4);
}

describe('the phone as a level', () => {
  it('is off at first, and opens the sensor where it is chosen', async () => {
    const { place, level, isOpen } = enter();
    expect(level()).toEqual({ on: null, stage: 'off', trouble: null });
    expect(isOpen()).toBe(false);
    place.choose('shin');
    expect(level().stage).toBe('opening');
    await Promise.resolve();
    expect(level()).toEqual({ on: 'shin', stage: 'ready', trouble: null });
    expect(place.forSession()).toEqual({});
  });

  it.each(['insecure', 'denied', 'no-sensor'] as const)('stays off where it is %s', async (why) => {
    const { place, level } = enter(why);
    place.choose('upper-arm');
    await Promise.resolve();
    expect(level()).toEqual({ on: null, stage: 'off', trouble: why });
    expect(place.forSession()).toEqual({});
  });

  it('is set hands free in two steps, each spoken and ended by a tone', async () => {
    const entered = await ready();
    firstStep(entered);
    expect(entered.level().stage).toBe('turning');
    expect(entered.tones).toEqual(['accepted']);
    turnRound(entered);
    expect(entered.level()).toEqual({ on: 'shin', stage: 'set', trouble: null });
    expect(entered.tones).toEqual(['accepted', 'accepted']);
    expect(entered.said).toEqual(
      ['shin-strap', 'shin-first', 'shin-second', 'set'].map((key) => BOOK.lines[`level.${key}`]),
    );
    expect(entered.place.forSession().level).toMatchObject({ on: 'shin' });
  });

  it('takes nothing while it is still being told how, nor while it lies flat', async () => {
    const entered = await ready();
    entered.upright();
    entered.place.set();
    entered.seconds(2 * LINE_SECONDS - 0.1);
    entered.flat();
    entered.seconds(20);
    expect(entered.level().stage).toBe('first');
  });

  it.each(['touch', 'voice', 'key'])('a step is taken at once by %s', async (by) => {
    const entered = await ready();
    entered.place.set();
    entered.seconds(2 * LINE_SECONDS);
    entered.upright();
    entered.seconds(1);
    if (by === 'touch') entered.place.take();
    if (by === 'voice')
      entered.hear({ type: 'words', text: 'ready', confidence: 1, prompt: 'idle' });
    if (by === 'key')
      entered.hear({ type: 'reply', reply: { ...NO_REPLY, command: 'ready' }, prompt: 'idle' });
    expect(entered.level().stage).toBe('turning');
  });

  it('other talk takes no step', async () => {
    const entered = await ready();
    entered.place.set();
    entered.seconds(2 * LINE_SECONDS + 0.5);
    entered.hear({ type: 'words', text: 'pass', confidence: 1, prompt: 'idle' });
    expect(entered.level().stage).toBe('first');
  });

  it('says what is wrong with the two steps, and can be set anew', async () => {
    const entered = await ready();
    firstStep(entered);
    entered.flat();
    entered.seconds(1);
    entered.place.take();
    expect(entered.level()).toEqual({ on: 'shin', stage: 'ready', trouble: 'across' });
    expect(entered.said.at(-1)).toBe(BOOK.lines['level.across']);
    expect(entered.place.forSession()).toEqual({});
    firstStep(entered);
    turnRound(entered);
    expect(entered.level().stage).toBe('set');
  });

  it.each(['silent', 'lose'] as const)('a sensor that drops out (%s) is told', async (how) => {
    const entered = await ready();
    entered.place.set();
    entered[how]();
    entered.seconds(2);
    expect(entered.level()).toEqual({ on: 'shin', stage: 'ready', trouble: 'dropped-out' });
  });

  it.each(['off', 'the other limb', 'another athlete', 'after a session'])(
    'is not used any more: %s',
    async (why) => {
      const entered = await ready();
      firstStep(entered);
      turnRound(entered);
      if (why === 'off') entered.place.choose(null);
      if (why === 'the other limb') entered.place.choose('upper-arm');
      if (why === 'after a session') entered.place.leave();
      if (why === 'another athlete') {
        const { people } = entered.store.state();
        entered.store.patch({ people: { ...people, chosen: 'somebody' } });
      }
      expect(entered.place.forSession()).toEqual({});
      expect(entered.isOpen()).toBe(why === 'the other limb');
    },
  );
});

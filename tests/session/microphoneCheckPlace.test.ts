// @vitest-environment jsdom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import type { SoundHeard } from '../../src/domain/hearing/microphoneAdvice';
import { createMicrophonePlace } from '../../src/main/microphone/microphonePlace';
import type { Hearing } from '../../src/ports';
import { createSeatStore, type MicrophoneState } from '../../src/screens/seat';
import { STATE } from '../screens/fakeSeat';

// From the root, where all tests run: the browser that is put on here knows no files.
const book = loadBook('scripts-cues', 'en');
type Place = Parameters<typeof createMicrophonePlace>[0];

/** The place, with the ear and the microphone in the test's hand. */
function placed({ answer = 'hears' }: { answer?: MicrophoneState } = {}) {
  const store = createSeatStore({ ...STATE, microphoneCheck: null });
  const fitted: unknown[][] = [];
  const listeners = new Set<(hearing: Hearing) => void>();
  let onLevel: (level: number, hearsWell: 'good', sound?: SoundHeard) => void = () => undefined;
  let bring: { resolve: () => void; reject: (why: Error) => void } | null = null;
  const ready = new Promise<void>((resolve, reject) => {
    bring = { resolve, reject };
  });
  const listen = (listener: (hearing: Hearing) => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  };
  let microphone = answer;
  const nothing = () => undefined;
  const parts = {
    clock: { now: () => 0, setTimeout: () => 0, clearTimeout: nothing },
    coach: {
      book: () => book,
      state: () => STATE.coach,
      fitEar: (...how: unknown[]) => {
        fitted.push(how);
        return Promise.resolve();
      },
    },
    ear: {
      ready,
      attend: nothing,
      listen,
      onLevel: (watch: typeof onLevel) => {
        onLevel = watch;
        return nothing;
      },
    },
    hands: { attend: nothing, listen },
    isHeard: true,
    tones: { unlock: () => Promise.resolve(), play: nothing },
    voice: { say: () => nothing },
  };
  const place = createMicrophonePlace({
    parts: parts as unknown as Place['parts'],
    store,
    openMicrophone: () => {
      store.patch({ microphone: { ...STATE.microphone, state: microphone } });
      return Promise.resolve();
    },
  });
  const run = () => store.state().microphoneCheck?.run ?? null;
  return {
    place,
    store,
    fitted,
    listeners,
    run,
    loads: () => bring?.resolve(),
    fails: () => bring?.reject(new Error('answered 404')),
    microphoneIs: (state: MicrophoneState) => {
      microphone = state;
    },
    sound: (noiseDecibels: number) =>
      onLevel(0.5, 'good', {
        ...{ seconds: 0.1, decibels: -50, sort: 'silence', clippedShare: 0 },
        noiseDecibels,
      }),
    stage: (stage: string) => vi.waitFor(() => expect(run()?.stage).toBe(stage)),
  };
}

beforeEach(() => localStorage.clear());
afterEach(() => localStorage.clear());

describe('the place of the check', () => {
  it('waits for the recogniser, and hears without the call word until it is left', async () => {
    const { place, store, fitted, listeners, loads, stage, run } = placed();
    place.begin();
    expect(store.state().where).toBe('microphone');
    expect(run()?.stage).toBe('loading');
    loads();
    await stage('introducing');
    expect(fitted).toEqual([['coach', null]]);
    place.leave();
    expect(fitted.at(-1)).toEqual(['coach']);
    expect(store.state().where).toBe('gate');
    expect(run()).toBeNull();
    expect(listeners.size).toBe(0);
  });

  it('goes on without a call word that is set on its page, and with it once it is left', async () => {
    const { place, store, fitted, loads, stage } = placed();
    place.begin();
    loads();
    await stage('introducing');
    store.patch({ coach: { ...STATE.coach, callWord: 'captain' } });
    // The coach fits the ear to the new word right after it told of it.
    fitted.push(['coach']);
    await vi.waitFor(() => expect(fitted).toEqual([['coach', null], ['coach'], ['coach', null]]));
    place.leave();
    expect(fitted.at(-1)).toEqual(['coach']);
  });

  it.each(['gate', 'squadDay'] as const)('begun at %s it leads back there', async (where) => {
    const { place, store, loads, stage } = placed();
    store.patch({ where });
    place.begin();
    loads();
    await stage('introducing');
    place.again();
    place.leave();
    expect(store.state().where).toBe(where);
  });

  it('left while it loads never begins', async () => {
    const { place, store, fitted, listeners, loads, run } = placed();
    place.begin();
    place.leave();
    loads();
    await new Promise((next) => setTimeout(next));
    await vi.dynamicImportSettled();
    expect(run()).toBeNull();
    expect(store.state().where).toBe('gate');
    expect(fitted).toEqual([['coach']]);
    expect(listeners.size).toBe(0);
  });

  it('ends where something else is shown', async () => {
    const { place, store, listeners, loads, stage } = placed();
    place.begin();
    loads();
    await stage('introducing');
    store.patch({ where: 'people' });
    expect(listeners.size).toBe(0);
  });

  it('a recogniser that does not load, and a microphone that is not allowed, are told', async () => {
    const failing = placed();
    failing.place.begin();
    failing.fails();
    await failing.stage('failed');
    const denied = placed({ answer: 'denied' });
    denied.place.begin();
    denied.loads();
    await denied.stage('deaf');
    denied.microphoneIs('hears');
    denied.place.goOn();
    await denied.stage('introducing');
  });

  it('tells how loud the room is by itself', () => {
    const { sound, store } = placed();
    const room = () => store.state().microphoneCheck?.room;
    expect(room()).toBeNull();
    sound(-62);
    expect(room()).toBe('quiet');
    sound(-30);
    expect(room()).toBe('loud');
  });

  it.each([
    [JSON.stringify({ date: '2031-03-02', words: 'Come nearer.' }), 'Come nearer.'],
    ['{"date": 3}', undefined],
    ['not kept', undefined],
  ])('remembers what the last one said: %s', (kept, words) => {
    localStorage.setItem('sayso-microphone', kept);
    expect(placed().store.state().microphoneCheck?.last?.words).toBe(words);
  });
});

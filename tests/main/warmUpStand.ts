import { vi } from 'vitest';
import { secondsOf } from '../../src/cli/durations';
import { loadBook } from '../../src/cues/fromFolder';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { NO_REPLY, type Command } from '../../src/domain/hearing/reply';
import type { CueBook, PromptId } from '../../src/domain/script';
import type { Hearing, ToneName } from '../../src/ports';
import { createSeatStore } from '../../src/screens/seat';
import { createWarmUpPlace } from '../../src/main/warmUp/warmUpPlace';
import { sharedManner } from '../../src/voice/manner';
import type { Synthesis } from '../../src/voice/synthesis';
import { STATE } from '../screens/fakeSeat';

export const book = loadBook('scripts-cues', 'en');
export const CHOICE = { id: 'before-the-bar', minutes: null, listen: 'hands' } as const;

/** A group at the seat, on a virtual clock; `longer`: its voice takes so much longer than planned. */
export function place({
  longer = 1,
  storage = emptyStorage(),
  coach = {},
  synthesis = {},
  of = book,
  attend = () => undefined,
}: {
  longer?: number;
  storage?: Storage;
  coach?: { book?: CueBook; callWord?: string };
  synthesis?: Partial<Synthesis>;
  of?: CueBook;
  attend?: (prompt: PromptId) => void;
} = {}) {
  const clock = createVirtualClock(Date.UTC(2031, 2, 8, 9, 0, 0));
  const store = createSeatStore({ ...STATE, where: 'people', book: of });
  const manner = sharedManner();
  const listeners = new Set<(hearing: Hearing) => void>();
  const awake = { now: 0 };
  const sounding = new Set<object>();
  const atOnce = { most: 0, countsOverCues: 0 };
  let attended: PromptId = 'idle';
  const lines: string[] = [];
  const tones: ToneName[] = [];
  /** What the music was turned to. */
  const levels: string[] = [];
  const warmUp = createWarmUpPlace({
    parts: {
      ...{ book: of, clock, manner, secondsOf, isHeard: true },
      synthesis: { close: () => undefined, ...synthesis } as Synthesis,
      coach: {
        book: () => coach.book ?? of,
        callWord: () => coach.callWord ?? null,
      } as never,
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
      tones: { play: (name: ToneName) => void tones.push(name), hush: () => undefined } as never,
      beats: {
        place(text) {
          if (text !== null && sounding.size > 0) atOnce.countsOverCues += 1;
          return () => undefined;
        },
        prepare: () => undefined,
      },
      music: { level: (level: string) => void levels.push(level) } as never,
    },
    store,
    listening: {
      attend(prompt) {
        attended = prompt;
        attend(prompt);
      },
      listen(listener) {
        listeners.add(listener);
        return () => listeners.delete(listener);
      },
    },
    storage: () => storage,
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
  const soFar = (text: string) =>
    tell({ type: 'so-far', text, confidence: 0.95, prompt: attended });
  const hear = (text: string) => tell({ type: 'words', text, confidence: 1, prompt: attended });
  const shown = () => store.state().warmUp;
  return {
    warmUp,
    store,
    clock,
    tell,
    atOnce,
    hear,
    soFar,
    lines,
    tones,
    levels,
    storage,
    manner,
    awake,
    reply,
    shown,
    isSilent: () => sounding.size === 0,
  };
}

/** What leads a group is fetched behind the page, in true time. */
export const until = (holds: () => boolean) =>
  vi.waitUntil(holds, { timeout: 15_000, interval: 5 });

/** The page's storage, with nothing in it. */
export function emptyStorage(): Storage {
  const kept = new Map<string, string>();
  return {
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, text) => void kept.set(key, text),
    removeItem: (key) => void kept.delete(key),
    clear: () => kept.clear(),
    key: (at) => [...kept.keys()][at] ?? null,
    get length() {
      return kept.size;
    },
  };
}

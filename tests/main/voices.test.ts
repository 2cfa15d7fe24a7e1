import { describe, expect, it } from 'vitest';
import type { Voice } from '../../src/ports';
import { createVoices, SHIPPED_ID } from '../../src/main/voices';
import { sharedManner } from '../../src/voice/manner';
import { clock, pass, stopTime } from '../voice/clock';
import { rudeSynthesis } from '../voice/rudeSynthesis';

stopTime();

/** A page that keeps what it is given, unless it is refused. */
const page = (refused = false) => {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => {
      if (refused) throw new Error('refused');
      return kept.get(key) ?? null;
    },
    setItem: (key: string, text: string) => {
      if (refused) throw new Error('refused');
      kept.set(key, text);
    },
  } as unknown as Storage;
};

/** The voices of a device of these names, on a page that may have been here before. */
function enter(names: string[], storage = page(), hasShipped = true) {
  const { synthesis, said } = rudeSynthesis({
    voices: names.map((name) => ({ name, voiceURI: name, default: false })),
  });
  const utterances: string[] = [];
  const shipped: Voice = {
    say(text, { ended }) {
      utterances.push(text);
      const timer = setTimeout(() => ended('spoken'), 500);
      return () => clearTimeout(timer);
    },
    prepare: () => undefined,
    adjust: () => undefined,
    duck: () => undefined,
  };
  const parts = {
    synthesis,
    shipped: hasShipped ? shipped : null,
    manner: sharedManner(),
    clock,
    language: 'en',
  };
  globalThis.SpeechSynthesisUtterance = class extends EventTarget {
    rate = 1;
    voice: SpeechSynthesisVoice | null = null;
    constructor(readonly text: string) {
      super();
    }
  } as never;
  let changes = 0;
  const voices = createVoices({ ...parts, storage: () => storage, changed: () => (changes += 1) });
  /** Who says a line: the name of the device's voice, or `sayso`. */
  const whoSpeaks = async () => {
    const before = utterances.length;
    voices.voice.say('Stand tall and breathe out', { ended: () => undefined });
    await pass(5000);
    return utterances.length > before ? SHIPPED_ID : said.at(-1)?.voice?.name;
  };
  return { voices, whoSpeaks, changes: () => changes, manner: parts.manner };
}

describe('who speaks on a device', () => {
  it('is its best voice where it has one that can be followed, else the shipped voice', async () => {
    expect(await enter(['Plain', 'Better (Premium)']).whoSpeaks()).toBe('Better (Premium)');
    expect(await enter(['eSpeak']).whoSpeaks()).toBe(SHIPPED_ID);
  });

  it('is the one that was chosen, here and at the next visit', async () => {
    const storage = page();
    const first = enter(['Plain', 'Other'], storage);
    first.voices.choose('Other');
    expect(first.changes()).toBe(1);
    expect(await first.whoSpeaks()).toBe('Other');
    const next = enter(['Plain', 'Other'], storage);
    expect(next.voices.state().speaks).toBe('Other');
    expect(await next.whoSpeaks()).toBe('Other');
    next.voices.choose(SHIPPED_ID);
    expect(await enter(['Plain', 'Other'], storage).whoSpeaks()).toBe(SHIPPED_ID);
  });

  it('is the best again where the chosen voice was taken off the device', async () => {
    const storage = page();
    enter(['Plain', 'Other'], storage).voices.choose('Other');
    expect(await enter(['Plain'], storage).whoSpeaks()).toBe('Plain');
  });

  it('can be chosen where the page may keep nothing', async () => {
    const { voices, whoSpeaks } = enter(['Plain', 'Other'], page(true));
    voices.choose('Other');
    expect(await whoSpeaks()).toBe('Other');
  });

  it('is measured as it speaks, and known at the next visit', async () => {
    const storage = page();
    const first = enter(['Plain'], storage);
    expect(first.voices.state().wordsPerMinute).toBeNull();
    await first.whoSpeaks();
    // A word in 0.4 s.
    expect(first.voices.state().wordsPerMinute).toBeCloseTo(150, -1);
    expect(enter(['Plain'], storage).voices.state().wordsPerMinute).toBeCloseTo(150, -1);
  });

  it('tells how much longer its lines take, whoever speaks', () => {
    const { voices, manner } = enter(['Plain']);
    expect(voices.voice.stretch?.()).toBe(1);
    manner.speakFor('group');
    const group = voices.voice.stretch?.() ?? 0;
    voices.voice.adjust('slower');
    expect(group).toBeGreaterThan(1.1);
    expect(voices.voice.stretch?.()).toBeGreaterThan(group);
  });

  it('is only one of the device, even a poor one, where the shipped one has not the language', async () => {
    const storage = page();
    storage.setItem('sayso-voice', SHIPPED_ID);
    const { voices, whoSpeaks } = enter(['eSpeak'], storage, false);
    expect(voices.state().speaks).toBe('eSpeak');
    expect(await whoSpeaks()).toBe('eSpeak');
    expect(enter([], storage, false).voices.state().speaks).toBeNull();
  });
});

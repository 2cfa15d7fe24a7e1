import { describe, expect, it } from 'vitest';
import { createActor } from 'xstate';
import { secondsOf } from '../../src/cli/durations';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { NO_REPLY, type Command } from '../../src/domain/hearing/reply';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import type { PromptId } from '../../src/domain/script';
import type { Hearing, SessionEvent, ToneName } from '../../src/ports';
import { EMPTY_VIEW, viewOf } from '../../src/screens/view';
import { betweenMachine } from '../../src/session/betweenMachine';
import { book, STARTED } from './bench';

const line = (key: string) => book.lines[key]!;
const TEXTS = ['Next is Quib Marn.', 'Two more after this one.', 'Tell me when you are ready.'];

/** Between two sessions, on a clock in the hand; `voice` fails where it is broken. */
function open({
  cannotPutOff = null as string | null,
  callWord = null as string | null,
  voice = 'speaks' as 'speaks' | 'broken',
} = {}) {
  const clock = createVirtualClock(STARTED);
  const events: SessionEvent[] = [];
  const tones: ToneName[] = [];
  const adjusted: string[] = [];
  let prompt: PromptId = '';
  let sounding: string | null = null;
  const listeners = new Set<(hearing: Hearing) => void>();
  const actor = createActor(betweenMachine, {
    clock,
    input: {
      ...{ book, secondsOf, settings: DEFAULT_SETTINGS, callWord, texts: TEXTS, cannotPutOff },
      ports: {
        clock,
        ear: {
          attend: (next) => {
            prompt = next;
          },
          listen: (listener) => {
            listeners.add(listener);
            return () => listeners.delete(listener);
          },
        },
        voice: {
          say(text, { started, ended }) {
            const isBroken = voice === 'broken';
            if (!isBroken) {
              sounding = text;
              started?.();
            }
            const timer = clock.setTimeout(
              () => {
                sounding = null;
                ended(isBroken ? 'failed' : 'spoken');
              },
              isBroken ? 1 : secondsOf(text) * 1000,
            );
            return () => {
              clock.clearTimeout(timer);
              sounding = null;
            };
          },
          prepare: () => undefined,
          adjust: (change) => adjusted.push(change),
          duck: () => undefined,
        },
        tones: { play: (name) => tones.push(name), hush: () => undefined },
        beats: { place: () => () => undefined, prepare: () => undefined },
        screen: { show: (event) => events.push(event) },
      },
    },
  });
  actor.start();
  const tell = (hearing: Hearing) => {
    for (const listener of [...listeners]) listener(hearing);
  };
  const between = {
    tones,
    adjusted,
    listeners,
    /** The sign that the screen shows for the last tone. */
    sign: () =>
      events.reduce((view, event) => viewOf(view, { ...event, atSeconds: 0 }), EMPTY_VIEW).tone,
    seconds: (seconds: number) => clock.advance(seconds * 1000),
    hear: (text: string, confidence = 1) => tell({ type: 'words', text, confidence, prompt }),
    /** Words that began while a line was said. */
    hearOver: (text: string, beganSecondsAgo: number) =>
      tell({ type: 'words', text, confidence: 0.95, prompt, beganSecondsAgo }),
    hand: (command: Command) => {
      tell({ type: 'reply', reply: { ...NO_REPLY, command }, prompt });
    },
    tell,
    prompt: () => prompt,
    sounding: () => sounding,
    cues: () => events.flatMap((event) => (event.type === 'cue' ? [event.text] : [])),
    then: () => actor.getSnapshot().output?.do,
    output: () => actor.getSnapshot().output,
    /** Until it waits for a word. */
    toWaiting: () => {
      clock.advance(15_000);
      expect(actor.getSnapshot().matches('waiting')).toBe(true);
    },
  };
  return between;
}

describe('a word that may go on, between two athletes', () => {
  const soFar = (between: ReturnType<typeof open>, text: string) =>
    between.tell({ type: 'so-far', text, confidence: 0.95, prompt: between.prompt() });
  const signs = ({ tones }: ReturnType<typeof open>) => tones.filter((tone) => tone === 'heard');

  it('is shown no longer once it comes to nothing', () => {
    const between = open();
    between.toWaiting();
    soFar(between, 'ready');
    expect(between.sign()).toBe('heard');
    between.tell({ type: 'nothing' });
    expect(between.sign()).toBeNull();
    expect(between.then()).toBeUndefined();
  });

  it('is heard at once, and done when it is over', () => {
    const between = open();
    between.toWaiting();
    soFar(between, 'ready');
    expect(between.tones.at(-1)).toBe('heard');
    expect(between.then()).toBeUndefined();
    between.hear('ready');
    expect(between.then()).toBe('ready');
  });

  it('is heard at the question whether to end, too, and ends nothing', () => {
    const between = open();
    between.toWaiting();
    between.hear('stop');
    between.seconds(5);
    soFar(between, 'yes');
    expect(between.tones.at(-1)).toBe('heard');
    expect(between.then()).toBeUndefined();
  });

  it('gives no sign where nothing would come of it, nor while Sayso speaks', () => {
    const between = open();
    soFar(between, 'ready');
    between.toWaiting();
    soFar(between, 'pass');
    soFar(between, 'keep your knees back');
    expect(signs(between)).toEqual([]);
  });
});

describe('between two athletes', () => {
  it('says who is next, what is left and what to say, and waits as long as it takes', () => {
    const between = open();
    between.toWaiting();
    expect(between.cues()).toEqual(TEXTS);
    between.seconds(3600);
    expect(between.cues()).toEqual(TEXTS);
    expect(between.then()).toBeUndefined();
    between.hear('ready');
    expect(between.then()).toBe('ready');
    expect(between.listeners.size).toBe(0);
  });

  it.each(['next person', 'skip'])('"%s" puts this one off', (words) => {
    const between = open();
    between.toWaiting();
    between.hear(words);
    expect(between.then()).toBe('put-off');
  });

  it('where nobody else is left "next person" says so, and waits on', () => {
    const between = open({ cannotPutOff: line('say.nobody-else') });
    between.toWaiting();
    between.hear('next person');
    expect(between.then()).toBeUndefined();
    between.seconds(1);
    expect(between.cues().at(-1)).toBe(line('say.nobody-else'));
    between.toWaiting();
    between.hear('ready');
    expect(between.then()).toBe('ready');
  });

  it('a hand begins before the words are over', () => {
    const between = open();
    between.seconds(0.5);
    between.hand('ready');
    expect(between.then()).toBe('ready');
    expect(between.sounding()).toBeNull();
  });

  it('its own "Tell me when you are ready." in the microphone begins nothing', () => {
    const between = open();
    while (between.sounding() !== TEXTS[2]) between.seconds(0.1);
    while (between.sounding() !== null) between.seconds(0.1);
    between.seconds(0.3);
    between.hearOver('ready', 0.8);
    expect(between.then()).toBeUndefined();
    between.seconds(2);
    between.hearOver('ready', 0.8);
    expect(between.then()).toBe('ready');
  });

  it('"stop" is silent at once and asks whether to end the day; only a yes ends it', () => {
    const between = open();
    between.seconds(0.5);
    between.hear('stop');
    expect(between.sounding()).toBeNull();
    expect(between.tones).toContain('halted');
    between.seconds(4);
    expect(between.cues().at(-1)).toBe(line('confirm.end-day'));
    expect(between.prompt()).toBe('confirm');
    between.hear('no');
    between.seconds(1);
    expect(between.then()).toBeUndefined();
    expect(between.cues().at(-1)).toBe(TEXTS[0]);
    between.toWaiting();
    between.hear('stop');
    between.seconds(4);
    between.hear('yes');
    expect(between.then()).toBe('end');
  });

  it('silence to that question ends nothing', () => {
    const between = open();
    between.toWaiting();
    between.hear('stop');
    between.seconds(60);
    expect(between.then()).toBeUndefined();
    between.toWaiting();
  });

  it('a warning sign is silent at once and hands over what was said, also while it asks or tells', () => {
    const sign = { do: 'sign', flag: 'chest-pain', text: 'chest pain' };
    const between = open();
    between.seconds(0.5);
    expect(between.sounding()).not.toBeNull();
    between.hear('chest pain');
    expect(between.sounding()).toBeNull();
    expect(between.tones).toContain('halted');
    expect(between.output()).toEqual(sign);
    expect(between.listeners.size).toBe(0);
    const asking = open();
    asking.toWaiting();
    asking.hear('stop');
    asking.seconds(4);
    asking.hear('chest pain');
    expect(asking.output()).toEqual(sign);
  });

  it('pain is answered, told not to be on record, and nothing begins', () => {
    const between = open();
    between.toWaiting();
    between.hear('that hurts');
    between.seconds(1);
    expect(between.cues().at(-1)).toBe(line('say.pain-between'));
    expect(between.then()).toBeUndefined();
  });

  it('says it again, louder, or what it waits for', () => {
    const between = open();
    between.toWaiting();
    between.hear('repeat');
    between.toWaiting();
    between.hear('louder');
    between.toWaiting();
    expect(between.cues()).toEqual([...TEXTS, ...TEXTS, ...TEXTS]);
    expect(between.adjusted).toEqual(['louder']);
    between.hear('help');
    between.seconds(1);
    expect(between.cues().at(-1)).toBe(line('say.help-between'));
  });

  it('talk begins nothing; what it cannot do is told by a tone', () => {
    const between = open();
    between.toWaiting();
    between.hear('nice weather for it');
    expect(between.tones.at(-1)).toBe('listening');
    between.hear('undo');
    expect(between.tones.at(-1)).toBe('not-understood');
    expect(between.then()).toBeUndefined();
  });

  it('where the ear is gone it says so, and the hand still begins', () => {
    const between = open();
    between.toWaiting();
    between.tell({ type: 'deaf', why: 'unplugged' });
    between.seconds(1);
    expect(between.cues().at(-1)).toBe(line('say.deaf'));
    between.hand('ready');
    expect(between.then()).toBe('ready');
  });

  it('where the ear is gone while it asks whether to end, the question stays open for a hand', () => {
    const between = open();
    between.toWaiting();
    between.hear('stop');
    between.seconds(4);
    between.tell({ type: 'deaf', why: 'unplugged' });
    between.seconds(0.5);
    expect(between.cues().at(-1)).toBe(line('say.deaf'));
    between.seconds(8);
    expect(between.cues().at(-1)).toBe(line('confirm.end-day'));
    expect(between.prompt()).toBe('confirm');
    between.hand('yes');
    expect(between.then()).toBe('end');
  });

  it('without a voice the words are shown for as long as they would take', () => {
    const between = open({ voice: 'broken' });
    between.seconds(0.2);
    expect(between.cues()).toEqual(TEXTS.slice(0, 1));
    between.toWaiting();
    expect(between.cues()).toEqual(TEXTS);
    between.hand('ready');
    expect(between.then()).toBe('ready');
  });

  it('with a call word a bare "ready" begins nothing', () => {
    const between = open({ callWord: 'captain' });
    between.toWaiting();
    between.hear('ready');
    expect(between.then()).toBeUndefined();
    between.hear('captain ready');
    expect(between.then()).toBe('ready');
  });
});

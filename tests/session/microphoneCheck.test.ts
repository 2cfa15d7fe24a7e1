import { SimulatedClock } from 'xstate';
import { describe, expect, test } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import type { SoundHeard } from '../../src/domain/hearing/microphoneAdvice';
import { NO_REPLY } from '../../src/domain/hearing/reply';
import type { PromptId } from '../../src/domain/script';
import { startMicrophoneCheck } from '../../src/main/microphone/microphoneCheck';
import type { Hearing, SayOptions } from '../../src/ports';
import type { MicrophoneRun } from '../../src/screens/microphone/state';
import { ROOM_MILLISECONDS, WALKING_MILLISECONDS } from '../../src/session/microphoneCheckMachine';
import { READ_WITHIN_MILLISECONDS } from '../../src/session/voiceCheckMachine';

const book = bookOf();
const FIRST = 'left one forty, ribs flared';
const LINE_MILLISECONDS = 1000;

const sound = (decibels: number, sort: SoundHeard['sort']): SoundHeard => ({
  ...{ seconds: 0.096, decibels, sort, clippedShare: 0, noiseDecibels: -60 },
});

/** A check whose ear, voice, clock and sight are in the test's hand. */
function started(how: 'speaks' | 'mute' | 'endless' | 'twice' = 'speaks') {
  const clock = new SimulatedClock();
  const listeners = new Set<(hearing: Hearing) => void>();
  const tones: string[] = [];
  const said: string[] = [];
  let sounding: string | null = null;
  let attended: PromptId = '';
  let see: (isSeen: boolean) => void = () => undefined;
  let run: MicrophoneRun | null = null;
  let stops = 0;

  const speak = (text: string, { started, ended }: SayOptions) => {
    said.push(text);
    if (how === 'mute') {
      ended('failed');
      return () => undefined;
    }
    sounding = text;
    started?.();
    if (how === 'endless')
      return () => {
        sounding = null;
      };
    const timer = clock.setTimeout(() => {
      sounding = null;
      ended('spoken');
      if (how === 'twice') ended('spoken');
    }, LINE_MILLISECONDS);
    return () => {
      sounding = null;
      clock.clearTimeout(timer);
      // A rude voice tells the end of a line that was cut.
      if (how === 'twice') ended('failed');
    };
  };
  const check = startMicrophoneCheck({
    book,
    ear: {
      attend: (prompt) => {
        attended = prompt;
      },
      listen: (listener) => {
        listeners.add(listener);
        return () => listeners.delete(listener);
      },
    },
    voice: {
      say: speak,
      prepare: () => undefined,
      adjust: () => undefined,
      duck: () => undefined,
    },
    tones: { play: (name) => tones.push(name) },
    clock: {
      now: () => clock.now(),
      setTimeout: (run, milliseconds) => clock.setTimeout(run, milliseconds),
      clearTimeout: (id) => clock.clearTimeout(id as number),
    },
    known: () => ({
      hearsOverSound: true,
      hasCallWord: false,
      isFitted: false,
      recogniser: 'strong',
      isBetterComing: false,
    }),
    onSight: (tell) => {
      see = tell;
      return () => {
        see = () => undefined;
      };
    },
    show: (shown) => {
      run = shown;
    },
    stopped: () => {
      stops += 1;
    },
  });
  const tell = (hearing: Hearing) => {
    for (const listener of [...listeners]) listener(hearing);
  };
  const now = () => run!;
  /** Sound of so many decibels above a room of -60 dB, for a tenth of a second each. */
  const sounds = (decibels: number, sort: SoundHeard['sort'], count = 10) => {
    for (let at = 0; at < count; at += 1) check.hear(sound(decibels, sort));
  };
  const bench = {
    check,
    tones,
    said,
    tell,
    sounds,
    now,
    stage: () => now().stage,
    stops: () => stops,
    sounding: () => sounding,
    see: (isSeen: boolean) => see(isSeen),
    wait: (milliseconds: number) => clock.increment(milliseconds),
    /** The line that sounds is said to its end. */
    line: () => clock.increment(LINE_MILLISECONDS),
    /** The coach walks there, the room is listened to, and the first reply is asked for. */
    toListening: () => {
      bench.line();
      clock.increment(WALKING_MILLISECONDS);
      sounds(-60, 'silence');
      clock.increment(ROOM_MILLISECONDS);
      bench.line();
    },
    hear: (text: string, confidence = 0.9, beganSecondsAgo = 0.5, decibels = -44) => {
      clock.increment(1000);
      sounds(decibels, 'speech');
      tell({ type: 'onset' });
      tell({ type: 'words', text, confidence, prompt: attended, beganSecondsAgo });
    },
    /** A reply, and what is said of it, until the next is asked for. */
    reply: (text: string, confidence?: number) => {
      bench.hear(text, confidence);
      bench.line();
      bench.line();
    },
    silence: () => clock.increment(READ_WITHIN_MILLISECONDS),
    /** To the end of everything that is said. */
    toEnd: () => {
      for (let lines = 0; lines < 5; lines += 1) bench.line();
    },
  };
  return bench;
}

/** Three replies, all right. */
function heardAll() {
  const check = started();
  check.toListening();
  check.reply('left one forty ribs flared');
  check.reply('pass');
  check.hear('stop');
  check.toEnd();
  return check;
}

describe('a check of the microphone', () => {
  test('runs hands free from one tap to its advice', () => {
    const check = heardAll();
    expect(check.said).toEqual([
      'Stand where you will work. Then be quiet for a moment.',
      `Say: ${FIRST}.`,
      'Right: left one forty ribs flared.',
      'Say: pass.',
      'Right: pass.',
      'Say: stop.',
      'Right: stop.',
      'It hears you well from there.',
    ]);
    expect(check.stage()).toBe('finished');
    const { result } = check.now();
    expect(result).toMatchObject({ standing: 'well', measured: { right: 3, asked: 3 } });
    expect(Math.abs((result?.measured.aboveNoiseDecibels ?? 0) - 16)).toBeLessThan(0.5);
    expect(result?.advised).toMatchObject([
      { words: 'It hears you well from there.', because: expect.stringContaining('16 decibels') },
    ]);
    expect(check.tones.filter((tone) => tone === 'accepted')).toHaveLength(3);
  });

  test('tells what is part of a reply, unsure, or something else', () => {
    const check = started();
    check.toListening();
    check.reply('left one forty');
    check.reply('pass', 0.4);
    check.hear('next');
    expect(check.now().heard.map(({ how }) => how)).toEqual(['almost', 'almost', 'other']);
    expect(check.said.at(-1)).toBe('I heard something else: next.');
  });

  test.each(['left one fifty ribs flared', 'right one forty ribs flared', 'pass'])(
    '"%s" for the first is something else',
    (text) => {
      const check = started();
      check.toListening();
      check.hear(text);
      expect(check.now().heard).toEqual([{ text: FIRST, how: 'other', heard: text }]);
    },
  );

  test('a reply that is not heard within 8 s is asked for once more, then counted so', () => {
    const check = started();
    check.toListening();
    check.wait(READ_WITHIN_MILLISECONDS - 1);
    expect(check.stage()).toBe('listening');
    check.wait(1);
    expect(check.said.at(-1)).toBe(`Once more. Say: ${FIRST}.`);
    expect(check.now().isAgain).toBe(true);
    check.line();
    check.silence();
    expect(check.now().heard).toEqual([{ text: FIRST, how: 'unheard', heard: null }]);
    expect(check.said.at(-1)).toBe('I did not hear that one.');
  });

  test('heard at the second time it is heard', () => {
    const check = started();
    check.toListening();
    check.silence();
    check.line();
    check.hear('left one forty ribs flared');
    expect(check.now().heard.map(({ how }) => how)).toEqual(['right']);
  });

  test('talk of others ends no reply, and nor does talk without end', () => {
    const check = started();
    check.toListening();
    check.wait(1000);
    check.tell({ type: 'onset' });
    check.tell({ type: 'nothing' });
    check.wait(2000);
    expect(check.stage()).toBe('listening');
    check.hear('left one forty ribs flared');
    expect(check.now().heard.map(({ how }) => how)).toEqual(['right']);
    check.line();
    check.line();
    for (let second = 0; second < 20; second += 1) {
      check.wait(1000);
      check.tell({ type: 'onset' });
    }
    expect(check.now().isAgain).toBe(true);
  });

  test('silence all along is ended early, and says what to look at', () => {
    const check = started();
    check.line();
    check.wait(WALKING_MILLISECONDS);
    check.wait(ROOM_MILLISECONDS);
    for (let reply = 0; reply < 2; reply += 1)
      for (const then of [() => undefined, check.line]) {
        check.line();
        check.silence();
        then();
      }
    check.toEnd();
    expect(check.stage()).toBe('finished');
    const { result } = check.now();
    expect(result?.standing).toBe('nothing');
    expect(result?.advised.map(({ words }) => words).join()).toMatch(
      /muted, not allowed, or used by another app/,
    );
    expect(result?.measured).toMatchObject({ asked: 3, unheard: 3 });
  });

  test('a voice too near the noise is advised to come nearer, and said so', () => {
    const check = started();
    check.toListening();
    for (const text of ['left one forty ribs flared', 'pass', 'stop']) {
      check.hear(text, 0.9, 0.5, -54);
      check.line();
      check.line();
    }
    expect(check.now().result?.standing).toBe('barely');
    expect(check.said).toContain('Come nearer: half the distance.');
    check.toEnd();
    expect(check.said.at(-1)).toBe('To check once more, say: again.');
  });
});

describe('once more', () => {
  test('by voice, from nearer: what came before stands beside it', () => {
    const check = started();
    check.toListening();
    check.reply('left one forty');
    check.reply('next');
    check.hear('stop');
    check.toEnd();
    expect(check.now().result?.measured.right).toBe(1);
    check.hear('again');
    expect(check.stage()).toBe('introducing');
    expect(check.now()).toMatchObject({ result: null, heard: [] });
    check.toListening();
    check.reply('left one forty ribs flared');
    check.reply('pass');
    check.hear('stop');
    check.toEnd();
    expect(check.now().before?.measured.right).toBe(1);
    expect(check.now().result?.measured.right).toBe(3);
    expect(check.said).toContain('Better than before.');
  });

  test('its own "say: again" does not begin it', () => {
    const check = started();
    check.toListening();
    check.reply('left one forty');
    check.reply('next');
    check.hear('stop');
    check.toEnd();
    check.tell({
      ...{ type: 'words', text: 'again', confidence: 0.9, prompt: 'idle' },
      beganSecondsAgo: 60,
    });
    expect(check.stage()).toBe('finished');
  });
});

describe('a stop', () => {
  test.each<[string, (check: ReturnType<typeof started>) => void]>([
    ['while Sayso speaks', (check) => check.wait(500)],
    ['while the coach walks', (check) => check.line()],
    ['while the room is heard', (check) => check.wait(LINE_MILLISECONDS + WALKING_MILLISECONDS)],
    ['where another reply is asked for', (check) => check.toListening()],
  ])('%s ends it', (_, until) => {
    const check = started();
    until(check);
    check.hear('stop', 0.9, 0.2);
    expect(check.stops()).toBe(1);
    expect(check.sounding()).toBeNull();
  });

  test('at the end leads back to the start', () => {
    const check = heardAll();
    check.hear('stop');
    expect(check.stops()).toBe(1);
  });

  test('that Sayso itself says is none', () => {
    const check = started();
    check.toListening();
    check.reply('left one forty ribs flared');
    check.hear('pass');
    check.line();
    expect(check.sounding()).toBe('Say: stop.');
    const echo: Hearing = { type: 'words', text: 'stop', confidence: 1, prompt: 'idle' };
    check.wait(500);
    check.tell({ ...echo, beganSecondsAgo: 0.3 });
    check.wait(500);
    // Told after the line, begun in it.
    check.tell({ ...echo, beganSecondsAgo: 0.3 });
    expect(check.stops()).toBe(0);
    expect(check.now().heard).toHaveLength(2);
    check.hear('stop');
    expect(check.now().heard[2]).toMatchObject({ how: 'right' });
  });

  test('by a key or pedal ends it too; forward goes on at once', () => {
    const check = started();
    check.line();
    check.tell({ type: 'reply', reply: { ...NO_REPLY, command: 'ready' }, prompt: 'idle' });
    expect(check.stage()).toBe('room');
    check.tell({ type: 'reply', reply: { ...NO_REPLY, command: 'stop' }, prompt: 'idle' });
    expect(check.stops()).toBe(1);
  });

  test('by the screen is silent at once', () => {
    const check = started();
    check.check.leave();
    expect(check.sounding()).toBeNull();
    check.wait(60_000);
    expect(check.said).toHaveLength(1);
  });
});

describe('a rude world', () => {
  test('without a voice runs on what is shown, and says so', () => {
    const check = started('mute');
    expect(check.stage()).toBe('walking');
    check.wait(WALKING_MILLISECONDS);
    check.sounds(-60, 'silence');
    check.wait(ROOM_MILLISECONDS);
    expect(check.now()).toMatchObject({ stage: 'listening', line: FIRST, isMute: true });
    for (const text of ['left one forty ribs flared', 'pass', 'stop']) check.hear(text);
    expect(check.now()).toMatchObject({ stage: 'finished', result: { standing: 'well' } });
  });

  test('a voice that never ends a line is not waited for without end', () => {
    const check = started('endless');
    check.wait(15_000);
    expect(check.stage()).toBe('walking');
    expect(check.sounding()).toBeNull();
  });

  test('a voice that ends a line twice, and one that was cut, skips nothing', () => {
    const check = started('twice');
    check.toListening();
    check.reply('left one forty ribs flared');
    expect(check.now()).toMatchObject({ stage: 'listening', line: 'pass' });
    check.see(false);
    check.see(true);
    expect(check.now()).toMatchObject({ stage: 'asking', line: 'pass' });
  });

  test('a microphone that goes is waited for; the same reply is asked for again', () => {
    const check = started();
    check.toListening();
    check.reply('left one forty ribs flared');
    check.tell({ type: 'deaf', why: 'unplugged' });
    expect(check.stage()).toBe('deaf');
    check.silence();
    expect(check.stage()).toBe('deaf');
    check.tell({ type: 'hears-again' });
    expect(check.now()).toMatchObject({ stage: 'asking', line: 'pass' });
  });

  test('a page out of sight waits silently, and says so once it is seen again', () => {
    const check = started();
    check.line();
    check.see(false);
    expect(check.stage()).toBe('hidden');
    const before = check.said.length;
    check.wait(60_000);
    expect(check.said).toHaveLength(before);
    check.see(true);
    expect(check.now()).toMatchObject({ stage: 'introducing', wasHidden: true });
    check.toListening();
    check.see(false);
    check.see(true);
    // The room is known by now.
    expect(check.now()).toMatchObject({ stage: 'asking', line: FIRST, wasHidden: true });
    check.line();
    check.hear('left one forty ribs flared');
    expect(check.now().wasHidden).toBe(false);
  });

  test('what is told once it is over changes nothing', () => {
    const check = heardAll();
    check.tell({ type: 'deaf', why: 'unplugged' });
    check.see(false);
    expect(check.stage()).toBe('finished');
  });
});

import { createActor, SimulatedClock } from 'xstate';
import { describe, expect, test } from 'vitest';
import type { PromptId } from '../../src/domain/script';
import type { Hearing } from '../../src/ports';
import { resultsOf, type LineToRead } from '../../src/session/voiceCheck';
import { READ_WITHIN_MILLISECONDS, voiceCheckMachine } from '../../src/session/voiceCheckMachine';

const LINES: LineToRead[] = [
  { prompt: 'check/a', text: 'pass', synonyms: ['clear', 'clean'] },
  { prompt: 'idle', text: 'rep', synonyms: [] },
  { prompt: 'idle', text: 'stop', synonyms: ['halt'] },
];
const MEANS: Record<string, string> = { clear: 'pass', clean: 'pass', halt: 'stop' };
const meaning = (text: string) => MEANS[text] ?? text;

/** A check whose ear, voice and clock are in the test's hand. */
function started(lines = LINES) {
  const clock = new SimulatedClock();
  const listeners = new Set<(hearing: Hearing) => void>();
  const tones: string[] = [];
  const said: string[] = [];
  let attended: PromptId = '';
  const actor = createActor(voiceCheckMachine, {
    input: {
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
        say: (text, { ended }) => {
          said.push(text);
          ended('spoken');
          return () => undefined;
        },
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
      lines,
      intro: 'Read what you see.',
      means: (_, heard, wanted) => meaning(heard) === meaning(wanted),
      steers: (_, heard) => (heard === 'skip' || heard === 'stop' ? heard : null),
    },
  });
  actor.start();
  const tell = (hearing: Hearing) => {
    for (const listener of [...listeners]) listener(hearing);
  };
  return {
    actor,
    tones,
    said,
    tell,
    hear: (text: string, confidence = 0.9, prompt = attended) =>
      tell({ type: 'words', text, confidence, prompt, phones: ['P'] }),
    silence: () => clock.increment(READ_WITHIN_MILLISECONDS),
    wait: (milliseconds: number) => clock.increment(milliseconds),
    state: () => actor.getSnapshot().value,
    line: () => actor.getSnapshot().context.left[0]?.text,
    results: () => resultsOf(actor.getSnapshot().context.read),
  };
}

describe('a reading that may go on', () => {
  const soFar = (check: ReturnType<typeof started>, text: string, prompt: PromptId) =>
    check.tell({ type: 'so-far', text, confidence: 0.95, prompt });

  test('is heard at once, and taken when it is over', () => {
    const check = started();
    soFar(check, 'clear', 'check/a');
    expect(check.tones.at(-1)).toBe('heard');
    expect(check.line()).toBe('pass');
    check.hear('pass');
    expect(check.tones.at(-1)).toBe('accepted');
  });

  test('is no sign for the line after it: not where it is left out, said again or not heard', () => {
    const check = started();
    const isHeard = () => check.actor.getSnapshot().context.isHeard;
    soFar(check, 'pass', 'check/a');
    expect(isHeard()).toBe(true);
    check.actor.send({ type: 'SKIP' });
    expect([check.line(), isHeard()]).toEqual(['rep', false]);
    soFar(check, 'rep', 'idle');
    check.tell({ type: 'nothing' });
    expect([check.line(), isHeard()]).toEqual(['rep', false]);
    soFar(check, 'rep', 'idle');
    check.tell({ type: 'deaf', why: 'unplugged' });
    check.tell({ type: 'hears-again' });
    expect([check.line(), isHeard()]).toEqual(['rep', false]);
  });

  test('gives no sign where it is another line than the one that is shown', () => {
    const check = started();
    soFar(check, 'rep', 'check/a');
    soFar(check, 'pass', 'idle');
    expect(check.tones).not.toContain('heard');
  });
});

describe('a voice check', () => {
  test('runs hands free from its first words to its end', () => {
    const check = started();
    expect(check.said).toEqual(['Read what you see.']);
    expect(check.line()).toBe('pass');
    check.hear('pass');
    expect(check.line()).toBe('rep');
    check.hear('rep');
    check.hear('stop');
    expect(check.state()).toBe('finished');
    expect(check.tones).toEqual(['listening', 'accepted', 'accepted', 'accepted']);
    expect(check.results().map(({ verdict }) => verdict)).toEqual(['well', 'well', 'well']);
  });

  test('a reading that is unsure or something else is asked for once more, no oftener', () => {
    const check = started();
    check.hear('pass', 0.4);
    expect(check.line()).toBe('pass');
    check.hear('pass', 0.8);
    check.hear('ready');
    expect(check.line()).toBe('rep');
    check.hear('ready');
    expect(check.line()).toBe('stop');
    check.hear('stop');
    expect(check.results()).toMatchObject([
      { text: 'pass', verdict: 'well', takenFor: null },
      { text: 'rep', verdict: 'other', takenFor: 'ready' },
      { text: 'stop', verdict: 'well' },
    ]);
  });

  test('other words of the same meaning are tried for what is not heard well, and proposed', () => {
    const check = started();
    check.hear('pause');
    check.hear('pass', 0.3);
    check.hear('rep');
    check.hear('stop');
    expect(check.state()).toBe('reading');
    expect(check.line()).toBe('clear');
    check.hear('clear');
    expect(check.state()).toBe('finished');
    expect(check.results()[0]).toEqual({
      text: 'pass',
      verdict: 'unsure',
      takenFor: 'pause',
      better: 'clear',
    });
  });

  test('what is no better is not proposed', () => {
    const check = started(LINES.slice(0, 1));
    check.hear('pause');
    check.hear('pause');
    check.hear('pause');
    check.hear('pause');
    expect(check.results()).toMatchObject([{ verdict: 'other', better: null }]);
  });

  test('"skip" and a tap leave a line out; "stop" ends the check unless it is to be read', () => {
    const check = started();
    check.hear('skip');
    expect(check.line()).toBe('rep');
    check.actor.send({ type: 'SKIP' });
    expect(check.line()).toBe('stop');
    check.hear('stop');
    expect(check.results().map(({ verdict }) => verdict)).toEqual(['skipped', 'skipped', 'well']);
    const stopped = started();
    stopped.hear('stop', 0.3);
    expect(stopped.state()).toBe('reading');
    stopped.hear('stop');
    expect(stopped.state()).toBe('finished');
  });

  test('a line that is not heard twice is passed over; after two of them it waits and says so', () => {
    const check = started();
    check.silence();
    check.tell({ type: 'nothing' });
    expect(check.line()).toBe('rep');
    check.silence();
    check.silence();
    expect(check.state()).toBe('nobodyHeard');
    check.silence();
    expect(check.state()).toBe('nobodyHeard');
    check.actor.send({ type: 'GO_ON' });
    expect(check.line()).toBe('stop');
    check.hear('stop');
    expect(
      check
        .results()
        .map(({ verdict }) => verdict)
        .slice(0, 2),
    ).toEqual(['unheard', 'unheard']);
  });

  test('who has begun to speak is heard out', () => {
    const check = started();
    check.wait(READ_WITHIN_MILLISECONDS - 100);
    check.tell({ type: 'onset' });
    check.wait(3000);
    expect(check.actor.getSnapshot().context.tries).toEqual([]);
    check.hear('pass');
    expect(check.line()).toBe('rep');
  });

  test('words that began at another line are no reading of this one', () => {
    const check = started();
    check.hear('pass');
    check.hear('pass', 0.9, 'check/a');
    expect(check.actor.getSnapshot().context.tries).toEqual([]);
  });

  test('a microphone that goes is waited for, at the same line', () => {
    const check = started();
    check.hear('pass');
    check.tell({ type: 'deaf', why: 'unplugged' });
    expect(check.state()).toBe('deaf');
    check.tell({ type: 'hears-again' });
    expect(check.state()).toBe('reading');
    expect(check.line()).toBe('rep');
  });
});

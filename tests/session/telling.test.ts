import { describe, expect, it } from 'vitest';
import { BREATH_SECONDS } from '../../src/domain/pacing/line';
import { TONE_SECONDS } from '../../src/ports';
import { book, openBench, STARTED } from './bench';

const line = (key: string) => book.lines[key];

describe('what is told between the steps', () => {
  it('begins with a welcome and the caution, once', () => {
    const bench = openBench();
    bench.untilAsked();
    expect(bench.cues().slice(0, 3)).toEqual([
      line('say.welcome'),
      line('say.caution'),
      'We begin with the unloaded hinge.',
    ]);
    bench.hear('clean');
    bench.untilAsked();
    expect(bench.cues().filter((text) => text === line('say.welcome'))).toHaveLength(1);
    const later = openBench({ log: bench.entries, atMilliseconds: bench.clock.now() });
    later.untilAsked();
    expect(later.cues()).not.toContain(line('say.welcome'));
  });

  it('leaves a breath after every line, and starts none over a tone', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.hear('knees came forward');
    bench.untilAsked();
    const counts = Object.entries(book.lines).flatMap(([key, text]) =>
      key.startsWith('count.') ? [text] : [],
    );
    const lines = bench.of('cue').filter(({ text }) => !counts.includes(text));
    lines.slice(1).forEach(({ text, atSeconds }, index) => {
      const before = lines[index];
      if (before?.text.endsWith('?')) return;
      const ended = (before?.atSeconds ?? 0) + (before?.seconds ?? 0);
      expect(atSeconds - ended, text).toBeGreaterThanOrEqual(BREATH_SECONDS - 0.001);
    });
    for (const tone of bench.of('tone')) {
      const over = bench
        .of('cue')
        .filter(
          ({ atSeconds }) =>
            atSeconds >= tone.atSeconds &&
            atSeconds < tone.atSeconds + TONE_SECONDS[tone.name] - 0.001,
        );
      expect(over, tone.name).toEqual([]);
    }
  });

  it('after pain with a load in the hands, first has it put down', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.hear('knees came forward');
    bench.clock.runUntil(() => bench.of('beat').length > 4, 600_000);
    expect(bench.prompt()).toBe('idle');
    bench.hear('pain');
    bench.seconds(TONE_SECONDS.accepted);
    expect(bench.sounding()).toBe(line('ask.pain-number-loaded'));
  });

  it('after pain without a load asks at once', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.hear('pain');
    bench.seconds(TONE_SECONDS.accepted);
    expect(bench.sounding()).toBe(line('ask.pain-number'));
  });

  it('after pain told at the question does not have it put down twice', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.hear('knees came forward');
    bench.untilAsked('set/bell-hinge');
    bench.hear('pain');
    bench.seconds(TONE_SECONDS.accepted);
    expect(bench.sounding()).toBe(line('ask.pain-number'));
  });

  it('reads the number of a pain back before it asks of what kind', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.hear('pain');
    bench.untilAsked('pain/how-much');
    bench.hear('four');
    bench.untilAsked('pain/kind');
    expect(bench.cues().at(-1)).toBe(`Pain four. ${line('ask.pain-kind')}`);
  });

  it('after an undo says what was taken out and what is asked, not the old reason', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.hear('knees came forward');
    bench.untilAsked('set/bell-hinge');
    const before = bench.cues().length;
    bench.hear('undo');
    bench.untilAsked('check/hinge-unloaded');
    expect(bench.cues().slice(before)).toEqual([
      'Taken out: knees forward.',
      'The unloaded hinge.',
      book.checks['hinge-unloaded']?.ask,
    ]);
  });

  it('9.8 after a refusal goes back to the question: no set is done again for a slip', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.hear('knees came forward');
    bench.untilAsked('set/bell-hinge');
    const before = bench.of('beat').length;
    bench.hear('go to the goblet squat');
    bench.untilAsked('set/bell-hinge');
    expect(bench.cues().at(-2)).toBe(
      'We are at the hinge, and the goblet squat belongs elsewhere.',
    );
    expect(bench.of('beat')).toHaveLength(before);
  });
});

describe.each([undefined, 1.43])('a voice that takes %s times as long', (stretch) => {
  it('has each caption, and music held down, just as long as its words', () => {
    const bench = openBench({ ...(stretch !== undefined && { stretch }) });
    bench.clock.runUntil(() => bench.sounding() !== null, 60_000);
    const [first] = bench.of('cue');
    bench.clock.runUntil(() => bench.sounding() === null, 60_000);
    const saidUntilSeconds = (bench.clock.now() - STARTED) / 1000;
    expect((first?.atSeconds ?? 0) + (first?.seconds ?? 0)).toBeCloseTo(saidUntilSeconds, 2);
  });
});

describe.each(['done', 'ready', 'rep'] as const)('"%s" by hand', (command) => {
  it('is shown as not taken in the welcome, which goes on', () => {
    const bench = openBench();
    bench.seconds(0.8);
    const line = bench.sounding();
    bench.hand({ command });
    expect(bench.of('heard').map(({ verdict }) => verdict)).toEqual(['ignore']);
    expect(bench.sounding()).toBe(line);
  });

  it('is shown as not taken at an open question, which stays open', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.hand({ command });
    expect(bench.of('heard').map(({ verdict }) => verdict)).toEqual(['ignore']);
    bench.hear('knees came forward');
    expect(bench.logged('finding')).toHaveLength(1);
  });

  it('is taken in the work', () => {
    const bench = openBench();
    bench.clock.runUntil(() => bench.of('beat').length > 0, 600_000);
    bench.hand({ command });
    expect(bench.of('heard').map(({ verdict }) => verdict)).toEqual(['accept']);
  });
});

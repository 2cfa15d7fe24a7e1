import { describe, expect, it } from 'vitest';
import type { PromptId } from '../../src/domain/script';
import { openBench, type Bench } from './bench';

/** Words that began so long ago, at the prompt that was attended then. */
const hear = (bench: Bench, text: string, beganSecondsAgo: number, confidence = 0.9) => {
  const prompt: PromptId = bench.prompt();
  bench.ear({ type: 'words', text, confidence, prompt, beganSecondsAgo });
};
/** In the middle of the first line. */
const speaking = () => {
  const bench = openBench();
  bench.seconds(0.8);
  expect(bench.sounding()).not.toBeNull();
  return bench;
};
const isHalted = (bench: Bench) => bench.tones.includes('halted');

describe('while Sayso speaks', () => {
  it('a stop that began over its words halts at once', () => {
    const bench = speaking();
    hear(bench, 'stop', 0.4);
    expect(isHalted(bench)).toBe(true);
  });

  it('a stop has to be clearer than in silence', () => {
    const bench = speaking();
    hear(bench, 'stop', 0.4, 0.25);
    expect(isHalted(bench)).toBe(false);
    bench.untilAsked();
    bench.seconds(2);
    hear(bench, 'stop', 0.4, 0.25);
    expect(isHalted(bench)).toBe(true);
  });

  it.each(['stop', 'pause', 'pain', 'dizzy'])('"%s" is taken, as the screen says', (words) => {
    const bench = speaking();
    hear(bench, words, 0.4);
    expect(bench.of('heard').map(({ verdict }) => verdict)).not.toContain('ignore');
    expect(bench.of('heard')).toHaveLength(1);
  });

  it('pain and red flags count', () => {
    const hurt = speaking();
    hear(hurt, 'sharp pain six', 0.5);
    expect(hurt.logged('finding').map(({ result }) => result)).toEqual(['pain']);
    const flagged = speaking();
    hear(flagged, 'dizzy', 0.5);
    expect(flagged.logged('red-flag')).toHaveLength(1);
  });

  it.each(['skip', 'knees came forward', 'one forty limited', 'yes', 'repeat', 'undo'])(
    '"%s" is not taken: it may be its own voice',
    (words) => {
      const bench = speaking();
      const entries = bench.entries.length;
      hear(bench, words, 0.5);
      expect(bench.sounding()).not.toBeNull();
      expect(bench.entries.slice(entries).filter(({ type }) => type !== 'heard')).toEqual([]);
      expect(bench.of('heard').map(({ verdict }) => verdict)).toEqual(['ignore']);
    },
  );

  it('a reply that began after its words is taken, however soon', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.seconds(0.9);
    hear(bench, 'knees came forward', 0.7);
    expect(bench.logged('finding')).toHaveLength(1);
  });

  it('a line rings on for 0.15 s: what began then may be its echo', () => {
    const began = (secondsAfter: number) => {
      const bench = openBench();
      bench.untilAsked();
      const line = bench.of('cue').at(-1);
      const opened = bench.of('listen').at(-1);
      if (line === undefined || opened === undefined) throw new Error('Nothing was asked.');
      bench.seconds(1);
      const sinceItsEnd = opened.atSeconds + 1 - (line.atSeconds + line.seconds);
      hear(bench, 'knees came forward', sinceItsEnd - secondsAfter);
      return bench.logged('finding').length;
    };
    expect([began(0.1), began(0.2)]).toEqual([0, 1]);
  });

  it('a reply that began before the voice did is taken, though the line was asked for', () => {
    const late = () => {
      const bench = openBench({ makingSeconds: 0.5 });
      bench.seconds(0.8);
      expect(bench.sounding()).not.toBeNull();
      return bench;
    };
    const before = late();
    hear(before, 'fewer words', 0.35);
    expect(before.logged('words')).toHaveLength(1);
    const over = late();
    hear(over, 'fewer words', 0.25);
    expect(over.logged('words')).toEqual([]);
  });

  it('a voice that never tells when it begins is taken to have begun when it was asked', () => {
    const bench = openBench({ voice: 'startless' });
    bench.seconds(0.1);
    bench.clock.runUntil(() => bench.sounding() === null, 60_000);
    hear(bench, 'fewer words', 0.5);
    expect(bench.logged('words')).toEqual([]);
  });

  it('words that the line itself says are its echo, though they name pain', () => {
    const bench = openBench();
    bench.untilAsked();
    bench.hear('that hurts');
    bench.clock.runUntil(() => /how much does it hurt/i.test(bench.sounding() ?? ''), 60_000);
    const findings = bench.logged('finding').length;
    bench.seconds(1);
    hear(bench, 'hurt', 0.5);
    hear(bench, 'ten', 0.2);
    expect(bench.logged('finding')).toHaveLength(findings);
    expect(bench.logged('pain-number')).toEqual([]);
  });
});

import { describe, expect, it } from 'vitest';
import { book, openBench, type Bench } from './bench';

const PASSIVE = 'check/overhead-passive';
const line = (key: string) => book.lines[key];
const last = (bench: Bench) => bench.logged('finding').at(-1);

/** At the first question of the overhead reach, left side. */
const atPassive = (): Bench => {
  const bench = openBench({ routine: 'overhead' });
  bench.untilAsked(PASSIVE);
  return bench;
};

describe('a reply that lacks its grade', () => {
  it('"left one forty" is asked for it, and the grade takes over side and angle', () => {
    const bench = atPassive();
    bench.hear('left one forty');
    expect(bench.sounding()).toBeNull();
    bench.seconds(1);
    expect(bench.sounding()).toBe('Left, one forty: pass, limited, or lost?');
    expect(bench.logged('finding')).toHaveLength(0);
    bench.untilAsked(PASSIVE);
    bench.hear('limited');
    expect(last(bench)).toMatchObject({
      side: 'left',
      result: 'short',
      angleDegrees: 140,
      source: { text: 'left one forty, limited' },
    });
  });

  it('"almost" is asked how it failed', () => {
    const bench = atPassive();
    bench.hear('almost');
    bench.seconds(1);
    expect(bench.sounding()).toBe(line('confirm.limited-or-lost'));
    bench.untilAsked(PASSIVE);
    bench.hear('lost');
    expect(last(bench)).toMatchObject({ side: 'left', result: 'lost' });
  });

  it('a pass under the line is still asked about', () => {
    const bench = atPassive();
    bench.hear('left one forty');
    bench.untilAsked(PASSIVE);
    bench.hear('pass');
    bench.untilAsked('confirm');
    expect(bench.logged('finding')).toHaveLength(0);
    bench.hear('yes');
    expect(last(bench)).toMatchObject({ result: 'held', angleDegrees: 140 });
  });

  it('silence, or a reload, leaves it open and records nothing', () => {
    const bench = atPassive();
    bench.hear('left one forty');
    bench.seconds(300);
    expect(bench.logged('finding')).toHaveLength(0);
    const later = openBench({
      routine: 'overhead',
      log: bench.entries,
      atMilliseconds: bench.clock.now(),
    });
    later.untilAsked(PASSIVE);
    later.hear('limited');
    expect(last(later)).toMatchObject({ result: 'short', angleDegrees: 140 });
  });

  it('nothing is taken over into the next question', () => {
    const bench = atPassive();
    bench.hear('left one forty');
    bench.untilAsked(PASSIVE);
    bench.hear('limited');
    bench.untilAsked(PASSIVE);
    bench.hear('pass');
    expect(last(bench)).toMatchObject({ side: 'right', result: 'held', angleDegrees: null });
  });

  it('a whole answer instead counts as it was said', () => {
    const bench = atPassive();
    bench.hear('left one forty');
    bench.untilAsked(PASSIVE);
    bench.hear('left one sixty pass');
    expect(last(bench)).toMatchObject({ side: 'left', result: 'held', angleDegrees: 160 });
  });

  it('what Sayso itself names while it asks is no answer', () => {
    const bench = atPassive();
    bench.hear('almost');
    bench.seconds(1);
    expect(bench.prompt()).toBe('idle');
    bench.hear('limited');
    bench.untilAsked();
    expect(bench.prompt()).toBe(PASSIVE);
    expect(bench.cues().at(-1)).toBe(line('confirm.limited-or-lost'));
    expect(bench.logged('finding')).toHaveLength(0);
  });
});

describe('a reply that may go on', () => {
  it('is heard at once, and graded by the whole of it', () => {
    const prompt = 'check/hinge-unloaded';
    const bench = openBench();
    bench.untilAsked(prompt);
    bench.ear({ type: 'so-far', text: 'knees came forward', confidence: 0.9, prompt });
    expect(bench.tones.at(-1)).toBe('heard');
    expect(bench.logged('finding')).toHaveLength(0);
    bench.hear('knees came forward back rounded');
    expect(bench.tones.at(-1)).toBe('accepted');
    expect(last(bench)?.faults).toEqual(['knees-forward', 'back-rounded']);
  });
});

import { describe, expect, it } from 'vitest';
import { book, openBench, STARTED, type Bench } from './bench';

const line = (key: string) => book.lines[key];
const CHECK = 'check/hinge-unloaded';

const atQuestion = (othersWait: boolean, log?: Bench['entries']): Bench => {
  const bench = openBench({
    othersWait,
    ...(log && { log, atMilliseconds: STARTED + 40 * 60_000 }),
  });
  bench.untilAsked(CHECK);
  return bench;
};
const isLeft = (bench: Bench) => bench.actor.getSnapshot().matches('left');

describe('"next person"', () => {
  it('leaves the session at its question: silent, nothing ended, nothing lost', () => {
    const bench = atQuestion(true);
    bench.hear('next person');
    expect(isLeft(bench)).toBe(true);
    expect(bench.sounding()).toBeNull();
    expect(bench.logged('ended')).toEqual([]);
    expect(bench.logged('outcome')).toEqual([]);
    expect(bench.of('end')).toEqual([]);
    expect(bench.entries.at(-1)).toMatchObject({ type: 'asked', prompt: CHECK });
  });

  it('the very session is taken up later at the open question, and the time away is no work', () => {
    const before = atQuestion(true);
    before.hear('next person');
    const bench = atQuestion(true, before.entries);
    expect(bench.prompt()).toBe(CHECK);
    expect(bench.cues()).not.toContain(line('because.time-cap'));
    bench.hear('pass');
    bench.seconds(5);
    expect(bench.logged('finding')).toMatchObject([{ check: 'hinge-unloaded', result: 'held' }]);
    expect(bench.logged('paused')).toHaveLength(1);
    expect(bench.logged('resumed')).toHaveLength(1);
  });

  it.each(['while words are said', 'while the work goes on', 'in a pause'])(
    'leaves %s too',
    (when) => {
      const bench = openBench({ othersWait: true });
      if (when === 'in a pause') {
        bench.untilAsked(CHECK);
        bench.hear('pause');
      } else if (when === 'while the work goes on') bench.seconds(20);
      bench.hand({ command: 'next-person' });
      expect(isLeft(bench)).toBe(true);
      expect(bench.sounding()).toBeNull();
    },
  );

  it('where nobody else is left it says so, and asks again', () => {
    const bench = atQuestion(false);
    bench.hear('next person');
    // The tone of the question rings out first.
    bench.seconds(1);
    expect(isLeft(bench)).toBe(false);
    expect(bench.cues().at(-1)).toBe(line('say.nobody-else'));
    bench.untilAsked(CHECK);
    bench.hear('pass');
    bench.seconds(5);
    expect(bench.logged('finding')).toHaveLength(1);
  });

  it.each([
    ['how much it hurts', 'that hurts', 'pain/how-much'],
    ['what kind of pain it is', 'that hurts, three', 'pain/kind'],
  ])('never leaves while it is asked %s, and says why', (_, words, prompt) => {
    const bench = atQuestion(true);
    bench.hear(words);
    // Before the question is open, too.
    bench.hand({ command: 'next-person' });
    expect(isLeft(bench)).toBe(false);
    bench.untilAsked(prompt);
    bench.hear('next person');
    // The tone of the question rings out first.
    bench.seconds(1);
    expect(isLeft(bench)).toBe(false);
    expect(bench.cues().at(-1)).toBe(line('say.pain-first'));
    bench.untilAsked(prompt);
    expect(bench.prompt()).toBe(prompt);
  });

  it('at the question whether to end it is no answer', () => {
    const bench = atQuestion(true);
    bench.hear('stop');
    bench.untilAsked('confirm');
    bench.hear('next person');
    // The tone of the question rings out first.
    bench.seconds(1);
    expect(isLeft(bench)).toBe(false);
    expect(bench.cues().at(-1)).toBe(line('say.not-here'));
  });

  it('after a warning sign the session ends, and is not left', () => {
    const bench = atQuestion(true);
    bench.hear('chest pain');
    bench.hand({ command: 'next-person' });
    bench.seconds(60);
    expect(isLeft(bench)).toBe(false);
    expect(bench.logged('ended')).toMatchObject([{ reason: 'red-flag' }]);
  });

  it('what was just answered is on record before it is left', () => {
    const bench = atQuestion(true);
    bench.hear('pass');
    bench.hand({ command: 'next-person' });
    expect(isLeft(bench)).toBe(true);
    expect(bench.logged('finding')).toHaveLength(1);
  });
});

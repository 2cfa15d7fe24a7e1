import { describe, expect, it } from 'vitest';
import { createActor } from 'xstate';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { bookOf } from '../../src/cli/verb';
import type { PacedLine } from '../../src/domain/pacing/line';
import { linesMachine } from '../../src/session/linesMachine';
import type { Stage } from '../../src/session/stage';

const book = bookOf();
const line = (phase: PacedLine['phase'], more: Partial<PacedLine> = {}): PacedLine => ({
  phase,
  atSeconds: 0,
  seconds: 4,
  text: null,
  beats: [],
  rep: null,
  side: null,
  ...more,
});

/** Performs lines on a virtual clock; `late` is how late every timer fires, in milliseconds. */
function perform(
  lines: PacedLine[],
  options: { from?: number; late?: number; sayMs?: number } = {},
) {
  const clock = createVirtualClock(0);
  const happened: string[] = [];
  const reports: number[] = [];
  let sounding = 0;
  let mostAtOnce = 0;
  const now = () => Math.round(clock.now()) / 1000;
  const stage: Stage = {
    book,
    clock: {
      ...clock,
      setTimeout: (run, milliseconds) => clock.setTimeout(run, milliseconds + (options.late ?? 0)),
    },
    secondsOf: () => 2,
    say(text, ended) {
      sounding += 1;
      mostAtOnce = Math.max(mostAtOnce, sounding);
      happened.push(`${now()} ${text}`);
      const timer = clock.setTimeout(() => {
        sounding -= 1;
        ended();
      }, options.sayMs ?? 900);
      return () => {
        sounding -= 1;
        clock.clearTimeout(timer);
      };
    },
    prepare: () => undefined,
    beat(text, dueMilliseconds, ended) {
      const name = text ?? 'tone countdown';
      happened.push(`${Math.round(dueMilliseconds) / 1000} ${name}`);
      const timer = clock.setTimeout(ended, text === null ? 0 : 500);
      return () => clock.clearTimeout(timer);
    },
    tone: (name) => happened.push(`${now()} tone ${name}`),
    giveWay: () => undefined,
    saidAt: () => null,
    goOn: () => undefined,
    hush: () => undefined,
    attend: () => undefined,
    show: (event) => {
      if (event.type === 'phase') happened.push(`${now()} ${event.phase}`);
    },
    report: (report) => {
      if (report.type === 'AT_LINE') reports.push(report.index);
    },
  };
  const actor = createActor(linesMachine, {
    clock,
    input: { stage, lines, from: options.from ?? 0 },
  });
  actor.start();
  return {
    actor,
    clock,
    happened,
    reports,
    sounding: () => sounding,
    mostAtOnce: () => mostAtOnce,
    end: () => clock.runUntil(() => actor.getSnapshot().status === 'done', 600_000),
  };
}

const counts = [0, 1, 2, 3].map((atSeconds) => ({
  atSeconds,
  count: atSeconds + 1,
  text: `count ${atSeconds + 1}`,
}));

describe('the lines of a set', () => {
  it('begin each phase exactly where the one before ended', () => {
    const run = perform([
      line('settling'),
      line('exhaling', { beats: counts }),
      line('pausingAtKnee', { seconds: 2 }),
    ]);
    run.end();
    expect(run.happened).toEqual([
      '0 settling',
      '4 exhaling',
      '4 count 1',
      '5 count 2',
      '6 count 3',
      '7 count 4',
      '8 pausingAtKnee',
    ]);
    expect(run.clock.now()).toBe(10_000);
  });

  it('do not drift where every timer is late', () => {
    const run = perform(
      Array.from({ length: 100 }, () => line('repeating', { seconds: 3 })),
      { late: 40 },
    );
    run.end();
    // Late by the last timer alone, not by a hundred of them.
    expect(run.clock.now()).toBeLessThan(300_000 + 200);
  });

  it('never speak over each other: a cue that runs long moves what follows', () => {
    const run = perform(
      [
        line('holding', { text: 'A long cue.', beats: counts }),
        line('cueing', { text: 'The next.' }),
      ],
      { sayMs: 6_000 },
    );
    run.end();
    expect(run.mostAtOnce()).toBe(1);
    expect(run.happened).toEqual(['0 holding', '0 A long cue.', '6 cueing', '6 The next.']);
  });

  it('"ready" cuts the time to settle short, and nothing else', () => {
    const run = perform([line('settling'), line('exhaling')]);
    run.clock.advance(1000);
    run.actor.send({ type: 'READY' });
    expect(run.happened).toEqual(['0 settling', '1 exhaling']);
    run.actor.send({ type: 'READY' });
    expect(run.happened).toHaveLength(2);
  });

  it('"rep" goes to the next repetition', () => {
    const run = perform([
      line('repeating', { rep: 1, text: 'one' }),
      line('pausingAtKnee', { rep: 1 }),
      line('repeating', { rep: 2, text: 'two' }),
    ]);
    run.clock.advance(500);
    run.actor.send({ type: 'REP' });
    expect(run.happened.slice(2)).toEqual(['0.5 repeating', '0.5 two']);
    run.actor.send({ type: 'REP' });
    expect(run.actor.getSnapshot().status).toBe('done');
  });

  it('"repeat" says the line again from its start', () => {
    const run = perform([line('cueing', { text: 'Feet under your hips.' })]);
    run.clock.advance(500);
    run.actor.send({ type: 'REPEAT' });
    expect(run.happened.filter((each) => each.endsWith('hips.'))).toHaveLength(2);
    expect(run.sounding()).toBe(1);
  });

  it('are silent at once when they are left', () => {
    const run = perform([line('cueing', { text: 'Feet under your hips.' })]);
    run.actor.stop();
    expect(run.sounding()).toBe(0);
    run.clock.advance(60_000);
    expect(run.happened).toHaveLength(2);
  });

  it('go on at the line where a pause came in', () => {
    const run = perform([line('settling'), line('holding'), line('resting')], { from: 1 });
    run.end();
    expect(run.reports).toEqual([1, 2]);
    expect(run.happened[0]).toBe('0 holding');
  });

  it('a count without words is a tone', () => {
    const run = perform([line('resting', { beats: [{ atSeconds: 1, count: 3, text: null }] })]);
    run.end();
    expect(run.happened).toContain('1 tone countdown');
  });
});

/** What contradicts itself, and the coach's own word: asked about, overruled, on record. */
import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import { openBench, STARTED, type Bench, type BenchOptions } from './bench';

const PASSIVE = 'check/overhead-passive';
const at = (routine: string, prompt: string, options: BenchOptions = {}): Bench => {
  const bench = openBench({ routine, ...options });
  bench.untilAsked(prompt);
  return bench;
};
const findings = (bench: Bench) => bench.logged('finding');

/** Said at the left arm (the pass line is 155 degrees), and what a yes then records. */
const DOUBTFUL: [string, object][] = [
  ['pass, ribs flared', { result: 'lost', faults: ['ribs-flared'] }],
  ['one forty pass', { result: 'held', angleDegrees: 140 }],
  ['maybe limited', { result: 'short' }],
  // Nobody reaches that far: the result counts, the number does not.
  ['two fifty limited', { result: 'short', angleDegrees: null, tool: null }],
];

describe('a reply that contradicts itself', () => {
  it.each(DOUBTFUL)('"%s" is recorded as it is offered, after a yes', (text, wanted) => {
    const bench = at('overhead', PASSIVE);
    bench.hear(text);
    expect(findings(bench)).toEqual([]);
    bench.untilAsked('confirm');
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([{ side: 'left', ...wanted }]);
  });

  it.each(DOUBTFUL)('"%s" is dropped by a no: asked anew, with nothing recorded', (text) => {
    const bench = at('overhead', PASSIVE);
    bench.hear(text);
    bench.untilAsked('confirm');
    bench.hear('no');
    bench.untilAsked(PASSIVE);
    expect(findings(bench)).toEqual([]);
    bench.hear('one sixty pass');
    expect(findings(bench)).toMatchObject([{ result: 'held', angleDegrees: 160 }]);
  });

  it.each(DOUBTFUL)('"%s" is never taken by silence', (text) => {
    const bench = at('overhead', PASSIVE);
    bench.hear(text);
    bench.seconds(2 * 3600);
    expect(findings(bench)).toEqual([]);
  });

  it.each(DOUBTFUL)('"%s" gives way to another answer', (text) => {
    const bench = at('overhead', PASSIVE);
    bench.hear(text);
    bench.untilAsked('confirm');
    bench.hear('one twenty limited');
    bench.untilAsked('confirm');
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([{ result: 'short', angleDegrees: 120 }]);
  });

  it.each(DOUBTFUL)('"%s" is offered again after a reload', (text, wanted) => {
    const before = at('overhead', PASSIVE);
    before.hear(text);
    before.untilAsked('confirm');
    const bench = openBench({
      routine: 'overhead',
      log: before.entries,
      atMilliseconds: STARTED + 900_000,
    });
    bench.untilAsked();
    expect(bench.prompt()).toBe('confirm');
    expect(findings(bench)).toEqual([]);
    bench.hear('yes');
    expect(findings(bench)).toMatchObject([{ side: 'left', ...wanted }]);
  });

  it('that was declined before a reload is not offered again', () => {
    const before = at('overhead', PASSIVE);
    before.hear('pass, ribs flared');
    before.untilAsked('confirm');
    before.hear('no');
    const bench = openBench({
      routine: 'overhead',
      log: before.entries,
      atMilliseconds: STARTED + 900_000,
    });
    bench.untilAsked();
    expect(bench.prompt()).toBe(PASSIVE);
  });
});

describe('a result with pain', () => {
  it('stands up to what the session lets go on, and becomes pain above it', () => {
    const strict = { ...DEFAULT_SETTINGS, painGoesOnUpTo: 1 };
    const usual = at('hinge', 'check/hinge-unloaded');
    usual.hear('pass, pain two');
    expect(findings(usual)).toMatchObject([{ result: 'held', pain: 2 }]);
    const bench = at('hinge', 'check/hinge-unloaded', { settings: strict });
    bench.hear('pass, pain two');
    expect(bench.of('heard').at(-1)?.readback).toBe('pain two');
    expect(findings(bench)).toMatchObject([{ result: 'pain', pain: 2 }]);
  });
});

describe('the coach overrules by voice', () => {
  const inHinge = () => {
    const bench = at('hinge', 'check/hinge-unloaded');
    bench.hear('knees came forward');
    bench.untilAsked('set/bell-hinge');
    return bench;
  };

  it.each([
    ['lighter', '9.5', 'bell-hinge'],
    ['make it lighter', '9.5', 'bell-hinge'],
    ['one more set', '9.1', 'bell-hinge'],
    ['redo that', '9.1', 'bell-hinge'],
    ['skip to the deadlift', '9.7', 'deadlift'],
    ["let's do the bench hinge", '9.7', 'bench-hinge'],
    ['go to the RDL', '9.7', 'romanian-deadlift'],
    ['back a step', '9.4', 'bench-hinge'],
    ['next drill', '9.3', 'romanian-deadlift'],
  ])('"%s" at a set is done by rule %s, and the record says who decided', (text, rule, to) => {
    const bench = inHinge();
    bench.hear(text);
    bench.untilAsked();
    expect(bench.logged('decision').at(-1)).toMatchObject({ rule, to, by: 'coach' });
    expect(bench.logged('overrule').at(-1)?.source).toMatchObject({ by: 'voice', text });
    expect(bench.prompt()).toBe(`set/${to}`);
  });

  it.each([
    ['go back to the plate squat', 'set/plate-reach-squat'],
    ["let's do the goblet squat", 'set/goblet-squat'],
  ])('"%s" from a drill above it', (text, prompt) => {
    const bench = at('squat', 'check/squat-bodyweight');
    bench.hear('heels up');
    bench.untilAsked();
    bench.hear('skip to the front squat');
    bench.untilAsked('set/front-squat');
    bench.hear(text);
    bench.untilAsked();
    expect(bench.prompt()).toBe(prompt);
    expect(bench.logged('decision').at(-1)?.by).toBe('coach');
  });

  it('"back to the bodyweight squat" from the front rack', () => {
    const bench = at('squat', 'check/squat-bodyweight');
    bench.hear('pass');
    bench.untilAsked('check/squat-front-rack');
    bench.hear('back to the bodyweight squat');
    bench.untilAsked();
    expect(bench.prompt()).toBe('check/squat-bodyweight');
    expect(bench.logged('decision').at(-1)).toMatchObject({ rule: '9.7', by: 'coach' });
  });

  it('by a name that several have is asked which; the question stays open', () => {
    const bench = inHinge();
    bench.hear('go to the hinge');
    bench.untilAsked();
    expect(bench.cues().some((text) => text.startsWith('Which one do you mean?'))).toBe(true);
    expect(bench.logged('overrule')).toEqual([]);
    expect(bench.prompt()).toBe('set/bell-hinge');
    bench.hear('go to the bench hinge');
    bench.untilAsked();
    expect(bench.prompt()).toBe('set/bench-hinge');
  });

  it('during the work as well', () => {
    const bench = at('hinge', 'check/hinge-unloaded');
    bench.hear('knees came forward');
    bench.clock.runUntil(() => bench.of('beat').length > 4, 600_000);
    bench.hear('skip to the deadlift');
    expect(bench.logged('decision').at(-1)).toMatchObject({ to: 'deadlift', by: 'coach' });
  });
});

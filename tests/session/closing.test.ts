import { describe, expect, it } from 'vitest';
import { openBench, type Bench } from './bench';

const answered = (bench: Bench, replies: string[]): Bench => {
  for (const reply of replies) {
    bench.untilAsked();
    bench.hear(reply);
  }
  bench.seconds(60);
  return bench;
};
const cuesAfterLastAnswer = (bench: Bench): string[] => {
  const { events } = bench;
  const from = events.findLastIndex(({ type }) => type === 'heard');
  return events.slice(from).flatMap((event) => (event.type === 'cue' ? [event.text] : []));
};
const count = (lines: string[], word: RegExp) => lines.filter((line) => word.test(line)).length;

describe('the closing words', () => {
  it('name what may be taught after the outcome, once each, and then the end', () => {
    const lines = cuesAfterLastAnswer(answered(openBench(), ['clean', 'clean']));
    expect(lines.slice(-3)).toEqual([
      'The hinge is ready to be taught.',
      'These may be taught next: pulls and deadlifts.',
      'That is the end of the session. The record is kept.',
    ]);
    expect(count(lines, /ready to be taught/)).toBe(1);
  });

  it('name the homework of what is working', () => {
    const bench = answered(openBench(), ['knees came forward', 'clean', 'clean']);
    for (let turn = 0; turn < 4 && !bench.isOver(); turn += 1) {
      bench.untilAsked();
      bench.hear(bench.prompt().startsWith('set/') ? 'skip' : 'knees came forward');
    }
    bench.seconds(120);
    expect(bench.of('end')).toMatchObject([
      {
        reason: 'completed',
        areas: [{ outcome: 'working', rung: 2, pattern: 'position-given-up' }],
        homework: [{ drill: 'bell-hinge' }],
        nextDate: '2026-01-12',
      },
    ]);
    expect(bench.of('outcome')).toMatchObject([{ pattern: 'position-given-up' }]);
    const lines = cuesAfterLastAnswer(bench);
    expect(count(lines, /Homework until next time: the bell hinge/)).toBe(1);
    expect(count(lines, /may be taught next/)).toBe(0);
  });

  it('are not said where the session was stopped or ended on a warning sign', () => {
    const overhead = ['left clear', 'right clear', 'clean', 'clean', 'clean'];
    const begun = () => openBench({ routine: 'readiness' });
    const stopped = answered(begun(), [...overhead, 'stop', 'yes']);
    const flagged = answered(begun(), [...overhead, 'I feel dizzy']);
    expect(stopped.of('end')).toMatchObject([{ reason: 'stopped', liftsReady: ['press'] }]);
    for (const bench of [stopped, flagged]) {
      expect(count(bench.cues(), /Homework|taught next/)).toBe(0);
    }
    expect(flagged.of('end')).toMatchObject([{ liftsReady: [], homework: [], nextDate: null }]);
  });

  it('a number given for pain stands with its finding in the end', () => {
    const bench = answered(openBench(), ['knees came forward', 'pain', 'four', 'one I know']);
    bench.hear('stop');
    bench.untilAsked('confirm');
    bench.hear('yes');
    bench.seconds(60);
    expect(bench.of('end')[0]?.findings).toContainEqual(
      expect.objectContaining({
        prompt: 'set/bell-hinge',
        result: 'pain',
        pain: 4,
        painKind: 'known',
      }),
    );
  });

  it('what was decided and taken back is not among the reasons in the end', () => {
    const bench = answered(openBench(), ['knees came forward']);
    bench.hear('undo');
    answered(bench, ['clean', 'clean']);
    const rules = bench.of('end')[0]?.decisions.map(({ rule }) => rule);
    expect(bench.logged('decision').map(({ rule }) => rule)).toContain('11.1');
    expect(rules).not.toContain('11.1');
    expect(rules?.at(-1)).toBe('12.5');
  });

  it('are cut by "stop" at once, and the session is over as it was', () => {
    const bench = openBench();
    for (const reply of ['clean', 'clean']) {
      bench.untilAsked();
      bench.hear(reply);
    }
    bench.seconds(2);
    expect(bench.sounding()).not.toBeNull();
    bench.hear('stop');
    expect(bench.sounding()).toBeNull();
    expect(bench.isOver()).toBe(true);
    expect(bench.of('end')).toMatchObject([{ reason: 'completed', liftsReady: ['pulls'] }]);
  });

  it('give way to a warning sign, which is on record and ends it anew', () => {
    const bench = openBench();
    for (const reply of ['clean', 'clean']) {
      bench.untilAsked();
      bench.hear(reply);
    }
    bench.seconds(2);
    bench.hear('chest pain');
    bench.seconds(30);
    expect(bench.isOver()).toBe(true);
    expect(bench.logged('red-flag')).toMatchObject([{ flag: 'chest-pain' }]);
    expect(bench.logged('ended').at(-1)).toMatchObject({ reason: 'red-flag' });
    expect(bench.cues().at(-1)).toMatch(/Get help now/);
    expect(bench.of('end')).toMatchObject([{ reason: 'red-flag', liftsReady: [], homework: [] }]);
  });
});

import { describe, expect, it } from 'vitest';
import { reportOf } from '../../../src/domain/reporting/report';
import type { Telling } from '../deciding/logging';
import { begin, book } from './book';

const report = (told: Telling) => reportOf(book, told.entries);
const area = (told: Telling, name: string) => {
  const found = report(told).areas.find((one) => one.area === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
};
const pattern = (told: Telling) => report(told).areas[0]?.pattern;
const whys = (told: Telling) =>
  report(told).areas.flatMap(({ notTested }) => notTested.map(({ check, why }) => [check, why]));
/** Leaves out what is left of the ladder, and fails what is tested again. */
const finish = (told: Telling, ...faults: string[]) => {
  while (told.step.do === 'set') told.coach('next');
  while (told.step.do === 'check') told.lost(...faults);
  return told;
};

describe('the pattern of an area', () => {
  it('12.8 is short range, position given up, or both', () => {
    expect(pattern(begin('squat').say('short', { faults: ['depth-short'] }))).toBe('range-short');
    expect(pattern(begin('squat').say('short'))).toBe('range-short');
    expect(pattern(begin('squat').lost('heels-up'))).toBe('position-given-up');
    expect(pattern(begin('squat').lost('heels-up', 'depth-short'))).toBe('range-and-position');
    const sides = begin('overhead').say('short').lost('ribs-flared');
    expect(pattern(sides)).toBe('range-and-position');
    expect(pattern(begin('squat').held(2))).toBeNull();
  });

  it('12.8 is only under the bar where every unloaded check held, at first or in the end', () => {
    expect(pattern(begin('hinge').held().lost('hips-first'))).toBe('only-under-bar');
    const late = begin('hinge').lost('knees-forward').held(6).held();
    expect(late.now).toBe('retest hinge-bar');
    expect(pattern(late.lost('hips-first'))).toBe('only-under-bar');
  });

  it('12.8 is pain where pain failed or referred it, and a warning sign where one ended it', () => {
    expect(pattern(begin('hinge').hurts(8))).toBe('pain');
    expect(pattern(begin('hinge').hurts(4, 'known'))).toBe('pain');
    expect(pattern(begin('hinge').lost('shoulders-forward').hurts(1, 'sharp'))).toBe('pain');
    expect(pattern(begin('hinge').lost('knees-forward').redFlag('chest-pain'))).toBe(
      'warning-sign',
    );
  });

  it('12.8 is of what stands: what came back is no part of it, and is said', () => {
    const told = begin('overhead').say('short').say('held').held(2);
    while (told.step.do === 'set') told.coach('next');
    told.held(2);
    expect(told.stands).toBe('overhead ready 0');
    const { pattern: none, regained, reasons } = area(told, 'overhead');
    expect([none, regained]).toEqual([null, [{ check: 'overhead-passive', side: 'left' }]]);
    expect(reasons).toEqual([
      'The overhead passive, left: came back, and held when it was tested again.',
    ]);
  });
});

describe('the reasons of an area', () => {
  it('12.9 name check, side, faults and angle, and the worse of two bad sides', () => {
    const told = begin('overhead');
    told.say('short', { faults: ['arms-short'] });
    told.entries.push({ ...told.entries.pop()!, angleDegrees: 150, tool: 'eye' } as never);
    told.lost('ribs-flared');
    told.entries.push({ ...told.entries.pop()!, angleDegrees: 140, tool: 'eye' } as never);
    const { failed, reasons } = area(told, 'overhead');
    expect(failed.map(({ side, isWorstSide }) => [side, isWorstSide])).toEqual([
      ['left', false],
      ['right', true],
    ]);
    expect(reasons.slice(0, 2)).toEqual([
      'The overhead passive, left: range short (arms short; 150 degrees by eye).',
      'The overhead passive, right: position given up (ribs flared; 140 degrees by eye). This is the worse side.',
    ]);
  });

  it('12.9 pain is the worse side, whatever the angles; sides alike are both the worst', () => {
    const told = begin('overhead').lost('ribs-flared').hurts(4, 'known');
    const worst = (of: Telling) => area(of, 'overhead').failed.map((one) => one.isWorstSide);
    expect(worst(told)).toEqual([false, true]);
    expect(area(told, 'overhead').reasons[1]).toContain('pain (4 of 10; known)');
    expect(worst(begin('overhead').lost('ribs-flared').lost('ribs-flared'))).toEqual([true, true]);
  });

  it('12.9 pain that referred the area is told of its check', () => {
    expect(area(begin('hinge').hurts(8), 'hinge').reasons).toEqual([
      'The hinge unloaded: pain (8 of 10).',
      'The hinge bar: not tested, because of pain.',
    ]);
    const again = begin('hinge').lost('knees-forward').held(6).hurts(3, 'sharp');
    expect(area(again, 'hinge').reasons[0]).toBe(
      'The hinge unloaded: did not hold. When it was tested again: pain (3 of 10; sharp).',
    );
  });

  it('12.9 a check that failed again is told once, as what stands', () => {
    const told = finish(begin('hinge').lost('knees-forward'), 'toes-up');
    expect(area(told, 'hinge').reasons[0]).toBe(
      'The hinge unloaded: did not hold. When it was tested again: position given up (toes up).',
    );
  });

  it('12.10 say why a check was not tested', () => {
    const unloaded = begin('hinge').lost('knees-forward');
    expect(whys(unloaded)).toEqual([['hinge-bar', 'unloaded-failed']]);
    expect(whys(begin('hinge').hurts(8))).toEqual([['hinge-bar', 'pain']]);
    expect(whys(begin('hinge').held().coach('skip'))).toEqual([['hinge-bar', 'coach']]);
    expect(whys(begin('hinge').held().say('not-tested'))).toEqual([['hinge-bar', 'coach']]);
    expect(whys(begin('hinge').held().halt().end(true))).toEqual([['hinge-bar', 'ended']]);
    const slow = begin('hinge', 'hands-on', { areaMinutes: 1 }).wait(90).held();
    expect(whys(slow)).toEqual([['hinge-bar', 'time']]);
    const alone = whys(begin('overhead', 'alone').held());
    expect(new Set(alone.map(([, why]) => why))).toEqual(new Set(['alone']));
    const flagged = begin('hinge').held().redFlag('breathless');
    expect(whys(flagged)).toEqual([['hinge-bar', 'ended']]);
  });

  it('12.10 say why what failed was not tested again', () => {
    const told = begin('hinge').lost('shoulders-forward').hurts(4, 'known');
    expect(told.step.do).toBe('end');
    expect(area(told, 'hinge').reasons).toContain(
      'The hinge unloaded: not tested again, because of pain.',
    );
    const left = begin('hinge').lost('knees-forward');
    while (left.step.do === 'set') left.coach('next');
    left.coach('skip');
    expect(area(left, 'hinge').reasons).toContain(
      'The hinge unloaded: not tested again, the coach left it for another time.',
    );
  });
});

describe('the lifts that may not be taught yet', () => {
  it('12.11 name every area that is missing, and how it stands', () => {
    const told = begin('readiness').held(4).lost('knees-caved').held(2);
    finish(told, 'knees-caved');
    expect(told.stands).toMatch(/overhead ready, squat working 0, hinge ready/);
    const { liftsReady, liftsMissing } = report(told);
    expect(liftsReady).toEqual(['pulls', 'press']);
    expect(liftsMissing.map(({ lift, sentence }) => [lift, sentence])).toEqual([
      ['front-squat', 'Front squat: missing squat (working below the first rung).'],
      ['clean', 'Cleans: missing squat (working below the first rung).'],
      ['jerk', 'Jerks: missing squat (working below the first rung).'],
      ['snatch', 'Snatches: missing squat (working below the first rung).'],
      ['overhead-squat', 'Overhead squat: missing squat (working below the first rung).'],
    ]);
  });

  it('12.11 an area outside the session is not part of it; a rung is named by its drill', () => {
    const told = finish(begin('hinge').lost('knees-forward').held(2), 'toes-up');
    const clean = report(told).liftsMissing.find(({ lift }) => lift === 'clean');
    expect(clean).toEqual({
      lift: 'clean',
      missing: [
        { area: 'squat', outcome: 'not-tested', rung: null },
        { area: 'hinge', outcome: 'working', rung: 2 },
      ],
      sentence:
        'Cleans: missing squat (not part of this session), hinge (working at the bell hinge).',
    });
  });
});

describe('what is kept of the way there', () => {
  it('has every check with its first answer and the one when it was tested again', () => {
    const told = begin('hinge').lost('knees-forward').held(6).say('held').lost('bar-away');
    const { checks } = report(told);
    expect(checks).toMatchObject([
      {
        check: 'hinge-unloaded',
        side: null,
        first: { result: 'lost', faults: ['knees-forward'], tries: 1 },
        retest: { result: 'held', tries: 1 },
        stands: 'held',
      },
      { check: 'hinge-bar', first: null, retest: { result: 'lost' }, stands: 'failed' },
    ]);
  });

  it('has every rung with its sets, their sides and loads', () => {
    const told = begin('overhead').held(3).lost('back-arched');
    told.say('held').lost('back-arched').say('lost', { side: 'both' }).coach('back');
    const { ladders } = report(told);
    expect(ladders.map(({ rung, drill, sets }) => [rung, drill, sets.length])).toEqual([
      [4, 'half-kneeling-press', 2],
    ]);
    expect(
      ladders[0]?.sets.map(({ load, sides }) => [load, sides.map(({ side }) => side)]),
    ).toEqual([
      ['as-written', ['left', 'right']],
      ['as-written', ['both']],
    ]);
    told.held(3);
    expect(report(told).ladders.map(({ rung }) => rung)).toEqual([4, 3, 4]);
  });

  it('has findings with the number and kind of pain that were asked for after them', () => {
    const told = begin('hinge').lost('knees-forward').say('pain').number(4).kind('known').held();
    expect(report(told).findings.map(({ pain, painKind }) => [pain, painKind])).toEqual([
      [null, null],
      [4, 'known'],
      [null, null],
    ]);
    const silent = begin('hinge').lost('knees-forward').say('pain').number('unanswered');
    expect(report(silent).findings[1]).toMatchObject({ result: 'pain', pain: null });
  });

  it('tells "both" as one finding a side', () => {
    const told = begin('overhead').say('held', { side: 'both' });
    expect(report(told).findings.map(({ side }) => side)).toEqual(['left', 'right']);
  });

  it('has no decision that came of something taken back', () => {
    const told = begin('hinge');
    const decide = () => {
      const { rule, because, area, from, to, by } = told.decision;
      told.add({ type: 'decision', rule, because, area, from, to, by });
      return because;
    };
    const first = decide();
    told.lost('knees-forward');
    const wrong = decide();
    told.undo(told.entries.findLast(({ type }) => type === 'finding')!.id);
    expect(decide()).toBe(first);
    told.held();
    const right = decide();
    told.coach('skip');
    const last = decide();
    const because = report(told).decisions.map((one) => one.because);
    expect(because).toEqual([first, right, last]);
    expect(because).not.toContain(wrong);
    expect(report(told).decisions.map(({ by }) => by)).toEqual(['rules', 'rules', 'coach']);
  });
});

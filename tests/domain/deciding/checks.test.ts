import { describe, expect, it } from 'vitest';
import { liftsReady, areaStates, nextStep } from '../../../src/domain/deciding/deciding';
import { book } from './book';
import { Telling } from './logging';

const hinge = () => new Telling('hinge');
const overhead = () => new Telling('overhead');
const readiness = () => new Telling('readiness');

describe('10 checks', () => {
  it('10.1 begins with the first check of the routine and says so', () => {
    const { decision } = hinge();
    expect(decision).toMatchObject({ rule: '10.1', area: 'hinge', from: null, by: 'rules' });
    expect(decision.because).toBe('We begin with the hinge unloaded.');
    expect(decision.step).toEqual({
      do: 'check',
      prompt: 'check/hinge-unloaded',
      area: 'hinge',
      check: 'hinge-unloaded',
      side: null,
      try: 1,
      retest: false,
    });
  });

  it('10.1 takes the areas in the order of the routine, and names the next', () => {
    const told = readiness().held(2).held(2);
    expect(told.decision).toMatchObject({ rule: '10.1', area: 'squat', to: 'squat-bodyweight' });
    expect(told.decision.because).toBe('Now the squat: we test the squat bodyweight.');
  });

  it('10.2 goes through the checks in file order', () => {
    const told = overhead().held(2);
    expect(told.now).toBe('check overhead-active-lying');
    expect(told.held().now).toBe('check overhead-active-standing');
    expect(told.rule).toBe('10.2');
  });

  it('10.3 asks left, then right', () => {
    const told = overhead();
    expect(told.now).toBe('check overhead-passive left');
    expect(told.held().now).toBe('check overhead-passive right');
    expect(told.rule).toBe('10.3');
  });

  it('10.3 the side that the coach names counts, and the other is asked then', () => {
    const told = overhead().say('lost', { side: 'right' });
    expect(told.now).toBe('check overhead-passive left');
    expect(told.held().now).toBe('check overhead-active-lying');
  });

  it('10.3 both is one finding a side', () => {
    expect(overhead().say('held', { side: 'both' }).now).toBe('check overhead-active-lying');
    const told = overhead().say('lost', { side: 'both' }).held(2);
    expect(told.now).toBe('set 1 supported-hang');
  });

  it('10.4 a later finding for the same check and side replaces the earlier', () => {
    const told = overhead().lost('ribs-flared').say('held', { side: 'left' });
    expect(told.now).toBe('check overhead-passive right');
    expect(told.held(3).stands).toBe('overhead ready');
  });

  it('10.4 the worst side counts', () => {
    expect(overhead().held().lost('ribs-flared').held(2).now).toBe('set 1 supported-hang');
  });

  it('10.5 three tries of a check and no more', () => {
    const told = hinge();
    const tries = () => (told.step.do === 'check' ? told.step.try : 0);
    expect(tries()).toBe(1);
    told.coach('again');
    expect([tries(), told.rule, told.decision.by]).toEqual([2, '9.1', 'coach']);
    told.coach('again');
    expect(tries()).toBe(3);
    told.coach('again');
    expect([tries(), told.rule]).toEqual([3, '9.8']);
    expect(told.decision.because).toBe('The hinge unloaded has had its 3 tries.');
  });

  it('10.6 the loaded check is not asked after the unloaded one failed', () => {
    expect(hinge().lost('knees-forward').now).toBe('set 1 bell-hinge');
    expect(hinge().say('short').now).toBe('set 1 bench-hinge');
    expect(hinge().held().now).toBe('check hinge-bar');
  });

  it('10.6 a failed passive overhead check does not keep the active ones from being asked', () => {
    expect(overhead().lost('ribs-flared').held().now).toBe('check overhead-active-lying');
  });

  it('10.7 alone, a check that needs hands is not tested, and the area not ready', () => {
    const told = new Telling('overhead', 'alone');
    expect(told.now).toBe('check overhead-active-standing');
    told.held();
    expect([told.now, told.stands]).toEqual(['end completed', 'overhead unfinished']);
  });

  it('10.8 a check that the coach calls not tested is left, and the area not ready', () => {
    const told = hinge().held().say('not-tested');
    expect([told.now, told.stands]).toEqual(['end completed', 'hinge unfinished']);
    const first = hinge().say('not-tested');
    expect([first.now, first.rule, first.decision.by]).toEqual([
      'check hinge-bar',
      '10.8',
      'coach',
    ]);
  });
});

describe('11 the way onto a ladder', () => {
  it('11.1 begins at the lowest rung of every entry that applies', () => {
    const both = hinge().lost('hips-first', 'knees-forward');
    expect(both.step).toMatchObject({ drill: 'bell-hinge', rung: 2, set: 1, of: 2 });
    expect(both.decision).toMatchObject({ rule: '11.1', from: 'hinge-unloaded', to: 'bell-hinge' });
    expect(both.decision.because).toBe(
      'From what you found, we begin the hinge with the bell hinge.',
    );
    expect(hinge().lost('toes-up', 'back-rounded').now).toBe('set 1 bench-hinge');
    expect(hinge().lost('hips-first').now).toBe('set 1 romanian-deadlift');
  });

  it('11.1 a failure only with the bar begins where the ladder says', () => {
    expect(hinge().held().lost('knees-forward').now).toBe('set 1 romanian-deadlift');
  });

  it('11.1 a failure with the bar begins at the first rung where the unloaded check was left out', () => {
    for (const leftOut of [hinge().coach('skip'), hinge().say('not-tested')])
      expect(leftOut.lost('knees-forward').now).toBe('set 1 bench-hinge');
  });

  it('11.1 looks at the result too: standing short and standing lost', () => {
    expect(overhead().held(3).say('short').now).toBe('set 1 hands-knees-walkout');
    expect(overhead().held(3).lost('ribs-flared').now).toBe('set 1 half-kneeling-press left');
  });

  it('11.1 a failure that no entry names begins at the first rung', () => {
    expect(hinge().say('lost').now).toBe('set 1 bench-hinge');
  });

  it('11.2 an area whose checks all held has no ladder and is ready', () => {
    const told = hinge().held(2);
    expect([told.now, told.stands]).toEqual(['end completed', 'hinge ready']);
    expect(told.decision).toMatchObject({ rule: '12.5', to: null });
  });

  it('11.3 in readiness the ladders come after all checks, only those that are needed', () => {
    const told = readiness().held(4).lost('heels-up');
    expect(told.now).toBe('check hinge-unloaded');
    told.held(2);
    expect(told.now).toBe('set 1 cable-squat');
    expect(told.stands).toBe('overhead ready, squat unfinished 0, hinge ready');
  });
});

describe('12 what becomes of an area', () => {
  it('12.1 is unfinished until its end is reached', () => {
    const told = hinge();
    expect(told.stands).toBe('hinge unfinished');
    expect(told.held().stands).toBe('hinge unfinished');
    expect(told.lost().stands).toBe('hinge unfinished 0');
  });

  it('12.2 is ready once what failed and what waited has held', () => {
    const told = hinge().lost('shoulders-forward').held(8);
    expect(told.now).toBe('retest hinge-unloaded');
    expect(told.held().now).toBe('retest hinge-bar');
    expect(told.held().stands).toBe('hinge ready 4');
  });

  it('12.3 is working at the last rung held where it did not', () => {
    const told = hinge().lost('shoulders-forward').held(8).lost('shoulders-forward');
    expect([told.now, told.stands]).toEqual(['end completed', 'hinge working 4']);
    const bar = hinge().lost('shoulders-forward').held(9).lost('hips-first');
    expect([bar.now, bar.stands]).toEqual(['end completed', 'hinge working 4']);
  });

  it('12.4 a skipped check never makes an area ready', () => {
    const skipped = hinge().held().coach('skip');
    expect([skipped.now, skipped.stands]).toEqual(['end completed', 'hinge unfinished']);
    const retest = hinge().lost('shoulders-forward').held(8).coach('skip');
    expect([retest.now, retest.stands]).toEqual(['end completed', 'hinge working 4']);
  });

  it('12.5 when all items are done, the session is completed', () => {
    const told = readiness().held(7);
    expect(told.now).toBe('check hinge-bar');
    expect(told.held().decision).toMatchObject({
      rule: '12.5',
      step: { do: 'end', reason: 'completed' },
      to: null,
      by: 'rules',
    });
  });

  it('12.6 a session that was ended stays ended', () => {
    for (const reason of ['completed', 'stopped', 'replies-ended'] as const) {
      const told = hinge().lost('knees-forward').add({ type: 'ended', reason });
      expect([told.now, told.rule]).toEqual([`end ${reason}`, '12.6']);
      told.coach('again').coach('go-to', 'deadlift').end(false).undo('s:d:2');
      expect([told.now, told.rule]).toEqual([`end ${reason}`, '12.6']);
    }
  });

  it('12.7 the lifts that may be taught need all their areas', () => {
    const ready = (told: Telling) => liftsReady(areaStates(book, told.entries));
    expect(ready(hinge().held(2))).toEqual(['pulls']);
    expect(ready(new Telling('squat').held(2))).toEqual(['front-squat']);
    expect(ready(overhead().held(4))).toEqual(['press']);
    expect(ready(readiness().held(8))).toEqual([
      'pulls',
      'front-squat',
      'clean',
      'press',
      'jerk',
      'snatch',
      'overhead-squat',
    ]);
    const noHinge = readiness().held(6).lost('toes-up');
    expect(ready(noHinge)).toEqual(['front-squat', 'press', 'jerk']);
  });
});

describe('a log that cannot be decided', () => {
  it('says what is wrong with it', () => {
    expect(() => nextStep(book, [])).toThrow(/no start.*"started"/);
    expect(() => new Telling('dance').now).toThrow(
      'There is no routine "dance". Choose one of: readiness, overhead, squat, hinge.',
    );
    const torn = { ...book, ladders: {} };
    expect(() => new Telling('squat', 'hands-on', {}, torn).now).toThrow(
      /needs a ladder for squat/,
    );
  });
});

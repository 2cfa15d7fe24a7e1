import { describe, expect, it } from 'vitest';
import { Telling } from './logging';

const bell = () => new Telling('hinge').lost('knees-forward');
const expectRefused = (told: Telling, because: string) => {
  expect(told.decision).toMatchObject({ rule: '9.8', by: 'coach', because });
};

describe('9 the coach overrules', () => {
  it('9.1 again does the same set once more, and it counts towards the twelve', () => {
    const told = bell().held().coach('again');
    expect(told.decision).toMatchObject({ rule: '9.1', by: 'coach', to: 'bell-hinge' });
    expect(told.now).toBe('set 2 bell-hinge');
    const { step } = told;
    for (let time = 0; time < 9; time += 1) told.coach('again');
    expect(told.rule).toBe('9.1');
    told.coach('again');
    expectRefused(told, '12 sets are the most for one ladder, so this one counts.');
    expect(told.step).toEqual(step);
  });

  it('9.2 skip and next leave a check untested', () => {
    for (const command of ['skip', 'next'] as const) {
      const told = new Telling('hinge').coach(command);
      expect(told.decision).toMatchObject({ rule: '9.2', by: 'coach', to: 'hinge-bar' });
    }
    const sided = new Telling('overhead').coach('skip');
    expect(sided.now).toBe('check overhead-passive right');
  });

  it('9.3 skip and next go up a rung without its being held', () => {
    for (const command of ['skip', 'next'] as const) {
      const told = bell().coach(command);
      expect(told.decision).toMatchObject({ rule: '9.3', by: 'coach', to: 'romanian-deadlift' });
      expect(told.stands).toBe('hinge unfinished 0');
      expect(told.coach(command).now).toBe('set 1 deadlift');
      expect([told.coach(command).now, told.rule]).toEqual(['retest hinge-unloaded', '9.3']);
    }
    expect(bell().say('not-tested').decision).toMatchObject({ rule: '9.3', by: 'coach' });
  });

  it('9.4 back goes down a rung, and says why not at the lowest', () => {
    const told = bell().coach('back');
    expect(told.decision).toMatchObject({ rule: '9.4', by: 'coach', to: 'bench-hinge' });
    const { step } = told;
    told.coach('back');
    expectRefused(told, 'Nothing gentler than the bench hinge can be done today.');
    expect(told.step).toEqual(step);
  });

  it('9.4 back in the checks asks the one before again, and its answer stands until then', () => {
    const told = new Telling('hinge').held().coach('back');
    expect(told.step).toMatchObject({ check: 'hinge-unloaded', try: 2 });
    expect(told.stands).toBe('hinge unfinished');
    expect(told.lost('knees-forward').now).toBe('set 1 bell-hinge');
    const kept = new Telling('hinge').held().coach('back').coach('next');
    expect(kept.now).toBe('check hinge-bar');
    expect(kept.held().stands).toBe('hinge ready');
    const first = new Telling('hinge').coach('back');
    expectRefused(first, 'The hinge unloaded comes before all others here.');
    expect(first.now).toBe('check hinge-unloaded');
  });

  it('9.4 back after the last check of all asks it again before the session goes on', () => {
    const told = new Telling('overhead').held(3).coach('back');
    expect(told.now).toBe('check overhead-active-lying');
    expect(told.lost('ribs-flared').now).toBe('check overhead-active-standing');
  });

  it('9.5 lighter makes a set easier where it can be', () => {
    const told = bell().coach('lighter');
    expect(told.decision).toMatchObject({ rule: '9.5', by: 'coach', step: { load: 'raised' } });
    told.coach('lighter');
    expectRefused(told, 'The bell hinge cannot be made easier than this.');
    // It was made easier already, so two failed sets step back.
    expect(told.lost('toes-up').lost('toes-up').now).toBe('set 1 bench-hinge');
    const bench = bell().coach('back').coach('lighter');
    expectRefused(bench, 'The bench hinge cannot be made easier than this.');
  });

  it('9.5, 9.6 lighter and heavier undo each other', () => {
    const told = bell().coach('heavier');
    expect(told.decision).toMatchObject({ rule: '9.6', step: { load: 'heavier' } });
    expect(told.coach('lighter').step).toMatchObject({ load: 'as-written' });
    expect(told.coach('lighter').step).toMatchObject({ load: 'raised' });
    expect(told.coach('heavier').step).toMatchObject({ load: 'as-written' });
    expectRefused(
      told.coach('heavier').coach('heavier'),
      'The bell hinge cannot take more load than this.',
    );
  });

  it('9.6 heavier is refused after any pain in the area, and alone', () => {
    const hurt = bell().say('held', { pain: 1 }).kind('known').coach('heavier');
    expectRefused(hurt, 'In the hinge, the load stays as it is today.');
    expect(hurt.step).toMatchObject({ load: 'as-written' });
    const alone = new Telling('squat', 'alone').lost('back-rounded').coach('heavier');
    expectRefused(alone, 'Alone, the plate reach squat keeps the load that was agreed.');
  });

  it('9.7 go-to takes a drill of the ladder, up or down', () => {
    const told = bell().coach('go-to', 'deadlift');
    expect(told.decision).toMatchObject({ rule: '9.7', by: 'coach', step: { rung: 4, set: 1 } });
    expect(told.coach('go-to', 'bench-hinge').step).toMatchObject({ rung: 1 });
  });

  it('9.7 go-to from a check goes straight onto the ladder next to it', () => {
    const told = new Telling('hinge').coach('go-to', 'deadlift');
    expect([told.now, told.stands]).toEqual(['set 1 deadlift', 'hinge unfinished 0']);
    expect([told.held(2).now, told.stands]).toEqual(['end completed', 'hinge unfinished 4']);
    const retest = bell().held(6).coach('go-to', 'bell-hinge');
    expect(retest.now).toBe('set 1 bell-hinge');
    expect(retest.held(6).now).toBe('retest hinge-unloaded');
  });

  it('9.7 go-to asks a check of the area again', () => {
    const told = new Telling('hinge').held().coach('go-to', 'hinge-unloaded');
    expect(told.step).toMatchObject({ check: 'hinge-unloaded', try: 2 });
    expect(told.held().now).toBe('check hinge-bar');
  });

  it('9.8 says why go-to cannot be done, and repeats the step', () => {
    const cases: [Telling, string, string][] = [
      [bell(), 'tightrope', 'I know no drill or check of that name on this ladder.'],
      [bell(), 'goblet-squat', 'We are at the hinge, and the goblet squat belongs elsewhere.'],
      [bell(), 'hinge-bar', 'The hinge bar has its turn after this ladder.'],
      [
        new Telling('readiness'),
        'standing-press',
        'The standing press has to wait until its ladder has its turn.',
      ],
      [bell().hurts(4, 'known'), 'deadlift', 'The deadlift has to wait for another day.'],
      [bell().hurts(1, 'sharp'), 'bell-hinge', 'The bell hinge has to wait for another day.'],
    ];
    for (const [told, target, because] of cases) {
      const { now } = told;
      expectRefused(told.coach('go-to', target), because);
      expect(told.now).toBe(now);
    }
  });

  it('9.8 next after pain does not reach a loaded drill', () => {
    const told = bell().hurts(4, 'known').coach('next');
    expect([told.now, told.rule]).toEqual(['retest hinge-unloaded', '9.3']);
    expect(told.held().now).toBe('end completed');
  });

  it('9.8 no word of the coach passes over a question about pain', () => {
    for (const command of ['skip', 'next', 'again', 'back', 'lighter', 'heavier'] as const) {
      const told = bell().say('pain').coach(command);
      expect([told.now, told.rule]).toEqual(['ask pain-number', '9.8']);
      expect(told.number(6).stands).toBe('hinge referred 0');
    }
    const target = bell().say('pain').coach('go-to', 'bench-hinge');
    expect(target.now).toBe('ask pain-number');
  });

  it('9.8 a check keeps its load', () => {
    const told = new Telling('hinge').coach('lighter');
    expectRefused(told, 'The hinge unloaded is tested as it is written.');
  });
});

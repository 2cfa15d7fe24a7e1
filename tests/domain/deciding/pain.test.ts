import { describe, expect, it } from 'vitest';
import { Telling } from './logging';

const at = (drill: 'bell-hinge' | 'romanian-deadlift' | 'deadlift' | 'bench-hinge') =>
  new Telling('hinge')
    .lost(drill === 'bench-hinge' ? 'back-rounded' : 'knees-forward')
    .held({ 'bench-hinge': 0, 'bell-hinge': 0, 'romanian-deadlift': 2, deadlift: 4 }[drill]);
const walkout = () => new Telling('overhead').held(3).say('short');

describe('1 pain', () => {
  it('1.1 asks for the number before anything else', () => {
    const told = at('bell-hinge').say('pain');
    expect(told.decision).toMatchObject({
      step: { do: 'ask', prompt: 'pain/how-much', about: 'pain-number', area: 'hinge' },
      rule: '1.1',
      from: 'bell-hinge',
      to: 'bell-hinge',
    });
  });

  it('1.2 then for the kind, unless it was said', () => {
    const told = at('bell-hinge').say('pain').number(2);
    expect(told.decision).toMatchObject({
      step: { do: 'ask', prompt: 'pain/kind', about: 'pain-kind' },
      rule: '1.2',
    });
    expect(at('bell-hinge').say('pain').kind('known').now).toBe('ask pain-number');
    expect(at('bell-hinge').say('pain').kind('known').number(1).now).toBe('set 1 bell-hinge');
    expect(at('bell-hinge').hurts(2, 'known').now).toBe('set 1 bell-hinge');
  });

  it('1.2 a result does not lift pain that waits for an answer', () => {
    const told = at('bell-hinge').say('pain');
    told.add({
      type: 'finding',
      prompt: 'set/bell-hinge',
      check: null,
      drill: 'bell-hinge',
      load: 'as-written',
      source: told.source(),
      side: null,
      result: 'held',
      faults: [],
      angleDegrees: null,
      tool: null,
      pain: null,
    });
    expect(told.now).toBe('ask pain-number');
    expect(told.number(7).stands).toBe('hinge referred 0');
  });

  it('1.3 above the line the area is referred, and no kind is asked', () => {
    const told = at('bell-hinge').hurts(6);
    expect([told.now, told.rule, told.stands]).toEqual([
      'end completed',
      '1.3',
      'hinge referred 0',
    ]);
    const check = new Telling('hinge').hurts(8);
    expect([check.now, check.stands]).toEqual(['end completed', 'hinge referred']);
  });

  it('1.3 the line is the one set for the session', () => {
    const told = (painRefersAbove: number) =>
      new Telling('hinge', 'hands-on', { painRefersAbove }).lost('knees-forward').hurts(5, 'known');
    expect(told(4).stands).toBe('hinge referred 0');
    expect(told(5).now).toBe('set 1 bench-hinge');
  });

  it('1.4 a number that stays unanswered refers the area', () => {
    const told = at('bell-hinge').say('pain').number('unanswered');
    expect([told.now, told.rule, told.stands]).toEqual([
      'end completed',
      '1.4',
      'hinge referred 0',
    ]);
  });

  it.each(['new', 'sharp', 'unanswered'] as const)('1.5 %s pain ends the drill', (kind) => {
    const told = at('romanian-deadlift').hurts(1, kind);
    expect([told.now, told.rule]).toEqual(['set 1 bench-hinge', '1.5']);
    told.held(2);
    expect([told.now, told.rule]).toEqual(['retest hinge-unloaded', '2.4']);
    expect([told.held().now, told.stands]).toEqual(['end completed', 'hinge working 1']);
  });

  it('1.5 leaves time to look at what hurts before the first set that follows, and only there', () => {
    const looks = [at('bell-hinge').hurts(1, 'sharp'), at('bell-hinge').hurts(4, 'known')];
    expect(looks.map(({ now }) => now)).toEqual(['set 1 bench-hinge', 'set 1 bench-hinge']);
    expect(looks.map(({ step }) => step)).toMatchObject([
      { lookFirst: true },
      { lookFirst: false },
    ]);
    expect(looks[0]?.held().step).toMatchObject({ do: 'set', lookFirst: false });
  });

  it('1.5 such a drill never comes again, not even unloaded', () => {
    const told = walkout().hurts(2, 'sharp');
    expect(told.now).toBe('set 1 supported-hang');
    expect([told.held(2).now, told.rule]).toEqual(['retest overhead-active-standing', '2.4']);
  });

  it('1.5 result and sharp pain said together count as pain', () => {
    const told = at('romanian-deadlift').say('held', { pain: 1 }).kind('sharp');
    expect(told.now).toBe('set 1 bench-hinge');
    const noNumber = at('romanian-deadlift').lost('toes-up').kind('sharp');
    expect(noNumber.now).toBe('ask pain-number');
    expect(noNumber.number(1).now).toBe('set 1 bench-hinge');
  });

  it('1.6 known 3 to 5 goes back a rung that is not loaded', () => {
    for (const number of [3, 4, 5]) {
      const told = at('deadlift').hurts(number, 'known');
      expect([told.now, told.rule]).toEqual(['set 1 stick-hinge', '1.6']);
    }
    const bell = at('bell-hinge').hurts(4, 'known');
    expect([bell.now, bell.rule]).toEqual(['set 1 bench-hinge', '1.6']);
    const press = new Telling('overhead').held(3).lost('ribs-flared').hurts(4, 'known');
    expect(press.now).toBe('set 1 hands-knees-walkout');
  });

  it('1.6 a rung left by such pain and painful again ends the ladder', () => {
    const told = walkout().hurts(3, 'known');
    expect(told.now).toBe('set 1 hands-only-pullover');
    expect(told.held(2).now).toBe('set 1 hands-knees-walkout');
    told.hurts(3, 'known');
    expect([told.now, told.rule, told.stands]).toEqual([
      'end completed',
      '1.7',
      'overhead working 2',
    ]);
  });

  it('1.7 with nothing gentler below, the ladder ends and is not tested again', () => {
    for (const kind of ['known', 'sharp'] as const) {
      const told = at('bench-hinge').hurts(4, kind);
      expect([told.now, told.rule]).toEqual(['end completed', '1.7']);
      expect(told.stands).toBe('hinge working 0');
    }
  });

  it('1.8 new or sharp pain in a check refers the area', () => {
    const told = new Telling('hinge').hurts(1, 'new');
    expect([told.now, told.rule, told.stands]).toEqual(['end completed', '1.8', 'hinge referred']);
    const retest = new Telling('hinge').lost('hips-first').held(4).hurts(2, 'sharp');
    expect(retest.stands).toBe('hinge referred 4');
  });

  it('1.9 known 3 to 5 in a check fails it, and the ladder is unloaded', () => {
    const told = new Telling('hinge').held().hurts(3, 'known');
    expect([told.now, told.rule]).toEqual(['set 1 bench-hinge', '1.9']);
    expect([told.held(2).now, told.stands]).toEqual(['end completed', 'hinge working 1']);
  });

  it('1.9 a spoken result becomes pain with more than goes on', () => {
    const told = new Telling('hinge').held().say('held', { pain: 4 }).kind('known');
    expect(told.now).toBe('set 1 bench-hinge');
  });

  it('1.10 with known 1 to 2 the spoken result stands', () => {
    const told = at('bell-hinge').held().say('held', { pain: 2 }).kind('known');
    expect([told.now, told.rule]).toEqual(['set 1 romanian-deadlift', '2.1']);
    const check = new Telling('hinge').held().say('held', { pain: 1 }).kind('known');
    expect([check.now, check.stands]).toEqual(['end completed', 'hinge ready']);
  });

  it('1.10 pain without a result is done again, in a check three times at most', () => {
    const told = at('bell-hinge').hurts(2, 'known');
    expect([told.now, told.rule]).toEqual(['set 1 bell-hinge', '1.10']);
    const check = new Telling('hinge').hurts(1, 'known');
    expect(check.step).toMatchObject({ check: 'hinge-unloaded', try: 2 });
    expect(check.hurts(1, 'known').step).toMatchObject({ try: 3 });
    expect(check.hurts(1, 'known').now).toBe('set 1 bench-hinge');
  });

  it('1.11 after squat pain above the line nothing loaded comes in the hinge either', () => {
    const told = new Telling('readiness').held(4).hurts(6);
    expect(told.now).toBe('check hinge-unloaded');
    expect([told.held().now, told.stands]).toEqual([
      'end completed',
      'overhead ready, squat referred, hinge unfinished',
    ]);
    const fault = new Telling('readiness').held(4).hurts(6).lost('hips-first');
    expect(fault.now).toBe('set 1 bench-hinge');
    expect(fault.held(2).now).toBe('retest hinge-unloaded');
    expect(fault.held().now).toBe('end completed');
  });

  it('1.11 after hinge pain above the line nothing loaded comes in the squat either', () => {
    const told = new Telling('readiness').held(4).held().lost('elbows-dropped').hurts(9);
    expect(told.now).toBe('set 1 cable-squat');
    told.held(2);
    expect([told.now, told.stands]).toEqual([
      'end completed',
      'overhead ready, squat working 1, hinge referred',
    ]);
  });

  it('1.11 overhead pain does not bar load in squat and hinge', () => {
    const told = new Telling('readiness').hurts(9);
    expect(told.now).toBe('check squat-bodyweight');
    expect(told.held().now).toBe('check squat-front-rack');
  });

  it('1.11 pain said of a drill that is over acts on the one at hand', () => {
    const told = at('deadlift').say('pain', { about: { drill: 'bell-hinge' }, pain: 4 });
    expect(told.kind('known').now).toBe('set 1 bench-hinge');
  });

  it('1.12 zero is no pain', () => {
    const told = at('bell-hinge').say('held', { pain: 0 });
    expect([told.now, told.rule]).toEqual(['set 2 bell-hinge', '2.2']);
    const asked = at('bell-hinge').say('pain').number(0);
    expect([asked.now, asked.rule]).toEqual(['set 1 bell-hinge', '1.12']);
    expect(asked.coach('heavier').step).toMatchObject({ load: 'heavier' });
  });

  it('1.12 but a sharp zero still ends the drill', () => {
    expect(at('bell-hinge').say('pain').kind('sharp').number(0).now).toBe('set 1 bench-hinge');
  });
});

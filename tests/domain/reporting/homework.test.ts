import { describe, expect, it } from 'vitest';
import { reportOf } from '../../../src/domain/reporting/report';
import { Telling } from '../deciding/logging';
import { begin, book } from './book';

const report = (told: Telling) => reportOf(book, told.entries);
const homework = (told: Telling) =>
  report(told).homework.map(({ drill, load, rule }) => `${rule} ${drill} ${load}`);
/** Fails at a rung until the ladder goes back: the fix, then easier, then enough. */
const fails = (told: Telling, times: number) => {
  for (let time = 0; time < times; time += 1) told.lost('knees-forward');
  return told;
};
/** Leaves out what is left of the ladder, and fails what is tested again. */
const finish = (told: Telling, fault = 'knees-forward') => {
  while (told.step.do === 'set') told.coach('next');
  while (told.step.do === 'check') told.lost(fault);
  return told;
};
/** Held at the bell hinge, then lost twice over at the rung above it. */
const workingAtBell = () => {
  const told = begin('hinge').lost('knees-forward').held(2);
  return fails(fails(told, 3).held(2), 3).lost('knees-forward');
};

describe('homework', () => {
  it('13.1 is the rung held last, with its dose, its load and what it needs', () => {
    const told = workingAtBell();
    expect(told.stands).toBe('hinge working 2');
    expect(homework(told)).toEqual(['13.1 bell-hinge as-written']);
    expect(report(told).homework).toMatchObject([
      {
        dose: '3 sets of 6',
        sets: 3,
        reps: 6,
        perSide: false,
        loadNote: null,
        loadGuidance: 'The handle stands at knee height.',
        caution: 'Put the bell down where anything hurts.',
        equipment: ['a kettlebell'],
        instead: ['a dumbbell on end', 'the stick hinge', 'the pull through'],
      },
    ]);
  });

  it('13.1 is done as it was when it was held: easier stays easier, heavier does not', () => {
    const easier = fails(begin('hinge').lost('knees-forward'), 2).held(2);
    expect(easier.now).toBe('set 1 romanian-deadlift');
    finish(easier);
    expect(easier.stands).toBe('hinge working 2');
    expect(report(easier).homework).toMatchObject([
      { drill: 'bell-hinge', load: 'raised', loadNote: 'Raise it.' },
    ]);
    const heavier = begin('hinge').lost('knees-forward').coach('heavier').held(2);
    expect(homework(finish(heavier))).toEqual(['13.1 bell-hinge as-written']);
  });

  it('13.1 says a dose with sides, with breaths, and of one set', () => {
    const pressed = begin('overhead').held(3).lost('back-arched').say('held', { side: 'both' });
    pressed.say('held', { side: 'both' });
    expect(report(finish(pressed)).homework).toMatchObject([{ dose: '2 sets of 6, each side' }]);
    const hung = begin('overhead').lost('ribs-flared').held(3).held(2);
    expect(report(finish(hung)).homework).toMatchObject([{ dose: '3 sets of 3 long breaths' }]);
    const stood = begin('overhead').held(3).lost('back-arched').coach('next').held(2);
    expect(report(finish(stood)).homework).toMatchObject([
      { drill: 'standing-press', dose: '1 set of 5' },
    ]);
  });

  it('13.2 below rung 1 is its drill made easier, or as written where it was not tried', () => {
    const below = fails(begin('squat').lost('heels-up'), 3).lost('heels-up');
    expect(below.stands).toBe('squat working 0');
    expect(homework(below)).toEqual(['13.2 cable-squat shallower']);
    const never = begin('squat').held().lost('elbows-dropped').coach('next');
    never.lost('elbows-dropped');
    expect(never.stands).toBe('squat working 0');
    expect(homework(never)).toEqual(['13.2 cable-squat as-written']);
  });

  it('13.3 has nothing loaded after pain in its area, but a gentler rung', () => {
    const told = finish(begin('hinge').lost('knees-forward').held(2).hurts(4, 'known'));
    expect(told.stands).toBe('hinge working 2');
    const [task] = report(told).homework;
    expect(book.drills[task!.drill]?.loaded).toBe(false);
    expect([task!.rule, task!.rung <= 2]).toEqual(['13.3', true]);
    for (const one of [task!.drill, ...task!.alternates]) {
      expect(book.drills[one]?.loaded, one).toBe(false);
    }
  });

  it('13.3 after hinge pain above the line has nothing loaded in the squat either', () => {
    const told = begin('readiness').held(4).say('held').lost('knees-caved');
    expect(told.now).toBe('check hinge-unloaded');
    told.hurts(7);
    while (told.step.do === 'set') told.say('lost', { faults: ['knees-caved'] });
    while (told.step.do === 'check') told.lost('knees-caved');
    expect(told.stands).toContain('hinge referred');
    expect(told.stands).toContain('squat working');
    const tasks = report(told).homework;
    expect(tasks.map(({ area }) => area)).toEqual(['squat']);
    for (const { drill, alternates } of tasks) {
      for (const one of [drill, ...alternates]) expect(book.drills[one]?.loaded, one).toBe(false);
    }
    expect(report(told).cautions[0]).toMatch(/nothing loaded in squat or hinge/);
  });

  it('13.4 is none where pain forbids every rung that is left, and says so', () => {
    const hurt = begin('squat').lost('heels-up').hurts(4, 'known');
    expect(hurt.stands).toBe('squat working 0');
    expect(report(hurt).homework).toEqual([]);
    expect(report(hurt).noHomework).toEqual([
      { area: 'squat', rule: '13.4', because: expect.stringMatching(/^Squat: no homework/) },
    ]);
  });

  it('13.4 lies below every rung that hurt more than goes on', () => {
    const line = (pain: number) => {
      const told = begin('overhead').held(2).lost('ribs-flared').held();
      expect(told.now).toBe('set 1 lying-pullover');
      told.held(2).coach('back').coach('back').hurts(pain, 'known');
      return homework(finish(told, 'ribs-flared'));
    };
    expect(line(2)).toEqual(['13.1 lying-pullover as-written']);
    expect(line(3)).toEqual([]);
    const above = begin('overhead').held(2).lost('ribs-flared').held(3).hurts(3, 'known');
    expect(above.now).toBe('set 1 hands-only-pullover');
    expect(homework(finish(above, 'ribs-flared'))).toEqual(['13.3 hands-only-pullover as-written']);
  });

  it('13.5 alone is no drill that the coach did not allow, nor in place of one that is', () => {
    const room = { allowedAlone: ['romanian-deadlift'] };
    const told = new Telling('hinge', 'alone', {}, book, room).held().lost('hips-first').held(2);
    expect(homework(finish(told))).toEqual(['13.1 romanian-deadlift as-written']);
    expect(report(told).homework[0]?.alternates).toEqual([]);
    const hands = begin('hinge').held().lost('hips-first').held(2);
    expect(report(finish(hands)).homework[0]?.alternates).toEqual(['two-bell-deadlift']);
  });

  it('13.5 passes over what is not in this gym, where the rung has another drill', () => {
    const room = { missing: ['bench'] };
    const told = new Telling('hinge', 'hands-on', {}, book, room).lost('shoulders-forward');
    expect(told.now).toBe('set 1 wall-hinge');
    expect(homework(finish(told))).toEqual(['13.2 wall-hinge as-written']);
    const only = new Telling('overhead', 'hands-on', {}, book, { missing: ['light-bell'] });
    only.held(3).lost('back-arched').coach('back').coach('back').held(2);
    expect(homework(finish(only))).toEqual(['13.1 hands-only-pullover as-written']);
  });

  it('13.6 is for working areas alone: none for what is ready, referred or unfinished', () => {
    expect(homework(begin('hinge').held(2))).toEqual([]);
    expect(homework(begin('hinge').hurts(8))).toEqual([]);
    const stopped = begin('hinge').lost('knees-forward').held(2).halt().end(true);
    expect(stopped.stands).toBe('hinge unfinished 2');
    expect(homework(stopped)).toEqual([]);
    expect(report(stopped).noHomework).toEqual([]);
  });

  it('13.7 with load says how much alone, and what is done alone only where it was allowed', () => {
    expect(report(workingAtBell()).homework).toMatchObject([
      { coach: 'load-handed-over', coachNote: expect.stringMatching(/never more load/) },
    ]);
    const pulled = begin('hinge').held().lost('hips-first').held(2).coach('next');
    pulled.lost('hips-first');
    expect(report(pulled).homework).toMatchObject([
      { drill: 'romanian-deadlift', coach: 'only-if-allowed' },
    ]);
    const below = fails(begin('squat').lost('heels-up'), 3).lost('heels-up');
    expect(report(below).homework).toMatchObject([{ coach: 'not-needed', coachNote: null }]);
  });

  it('13.8 after a warning sign there is no homework, no lift and no date, in any area', () => {
    const told = begin('readiness').lost('ribs-flared').held(3).lost('heels-up').held(2);
    while (told.step.do === 'set') told.coach('next');
    while (told.step.do === 'check' && told.step.area === 'overhead') told.lost('ribs-flared');
    expect(told.stands).toBe('overhead working 0, squat unfinished 0, hinge ready');
    expect(report(told).homework.map(({ area }) => area)).toEqual(['overhead']);
    expect(report(told).liftsReady).toEqual(['pulls']);
    const warned = report(told.redFlag('chest-pain'));
    expect([warned.liftsReady, warned.homework, warned.noHomework]).toEqual([[], [], []]);
    const flagged = begin('readiness').held(4).held(2).redFlag('faint-dizzy');
    const after = report(flagged);
    expect(after.areas.map(({ outcome }) => outcome)).toEqual(['ready', 'ready', 'referred']);
    expect([after.liftsReady, after.homework, after.nextDate]).toEqual([[], [], null]);
    expect(after.liftsMissing.map(({ sentence }) => sentence)).toContain(
      'Front squat: only once a licensed professional has decided.',
    );
    expect(after.cautions[0]).toMatch(/warning sign/);
  });
});

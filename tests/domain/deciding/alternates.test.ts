import { describe, expect, it } from 'vitest';
import { areaStates, nextStep } from '../../../src/domain/deciding/deciding';
import { book, EQUIPMENT } from './book';
import { Telling } from './logging';

const without = (routine: string, ...missing: string[]) =>
  new Telling(routine, 'hands-on', {}, book, { missing });
const alone = (...allowedAlone: string[]) =>
  new Telling('hinge', 'alone', {}, book, { allowedAlone });
/** The hinge from its first rung, in a gym that lacks these. */
const hinge = (...missing: string[]) => without('hinge', ...missing).lost('shoulders-forward');
const homework = (told: Telling) =>
  areaStates(book, told.entries).map(({ rung, drill }) => [rung, drill]);
const CANNOT = { rule: '9.8', by: 'coach' };

describe('a gym without the equipment', () => {
  it('11.4 a rung is done with the first alternate whose equipment is there', () => {
    expect(hinge().now).toBe('set 1 bench-hinge');
    expect(hinge('bench').now).toBe('set 1 wall-hinge');
    expect(hinge('kettlebell').held(2).now).toBe('set 1 stick-hinge');
    expect(hinge('kettlebell', 'stick').held(2).now).toBe('set 1 pull-through');
    expect(hinge('rack').held(4).now).toBe('set 1 two-bell-deadlift');
  });

  it('11.4 everything that a drill needs must be there', () => {
    expect(hinge('barbell').held(4).now).toBe('set 1 two-bell-deadlift');
  });

  it('11.4 what has something that does as well is never missing', () => {
    const told = without('overhead', 'mat').lost('ribs-flared').held(3);
    expect(told.now).toBe('set 1 supported-hang');
  });

  it('11.4 nothing missing decides exactly as no word of it', () => {
    const tell = (told: Telling) => told.lost('knees-forward').held(3).lost('toes-up').held(2);
    expect(tell(without('hinge')).decision).toEqual(tell(new Telling('hinge')).decision);
  });

  it('11.1 enters lower where nothing is there for the rung, and never higher', () => {
    const front = without('squat', 'barbell').held().held();
    expect(front.stands).toBe('squat ready');
    const lower = without('hinge', 'rack', 'two-bells').lost('hips-first');
    expect([lower.now, lower.rule]).toEqual(['set 1 bell-hinge', '11.1']);
    const nothing = without('hinge', ...EQUIPMENT).lost('knees-forward');
    expect(nothing.now).toBe('set 1 wall-hinge');
  });

  it('11.1 has no ladder where nothing is left at or below the rung that findings lead to', () => {
    const hingeOnly = book.ladders.hinge;
    if (hingeOnly === undefined) throw new Error('The hinge has no ladder.');
    const rungs = hingeOnly.rungs.map(({ drill }) => ({ drill }));
    const bare = { ...book, ladders: { ...book.ladders, hinge: { ...hingeOnly, rungs } } };
    const told = new Telling('hinge', 'hands-on', {}, bare, { missing: ['bench', 'kettlebell'] });
    told.lost('knees-forward');
    expect([told.now, told.stands]).toEqual(['end completed', 'hinge unfinished']);
  });

  it('2.4 a rung for which nothing is there is left out, and the sentence says so', () => {
    const told = hinge('rack', 'two-bells').held(2).held(2);
    expect(told.decision).toMatchObject({ rule: '2.4', to: 'deadlift', step: { rung: 4 } });
    expect(told.decision.because).toBe(
      'Two good sets in a row: past what has to wait today, up to the deadlift.',
    );
  });

  it('2.4 with nothing there for the rungs above, the ladder is done, and the sentence says so', () => {
    const told = hinge('barbell', 'two-bells').held(2).held(2);
    expect([told.now, told.rule]).toEqual(['retest hinge-unloaded', '2.4']);
    expect(told.decision.because).toBe(
      'Two good sets of the bell hinge. What is above it needs equipment that is not here.',
    );
    expect(told.stands).toBe('hinge unfinished 2');
  });

  it('2.4 pain is named before equipment', () => {
    const told = hinge('kettlebell', 'band').hurts(3, 'known');
    expect(told.now).toBe('end completed');
    const bell = hinge('barbell').held(2).hurts(3, 'known').held(2);
    expect(bell.decision.because).toBe(
      'Two good sets of the bench hinge, and nothing loaded today, so this ladder is done.',
    );
  });

  it('10.9 a check for which nothing is there is not tested', () => {
    expect(without('hinge', 'barbell').held().now).toBe('check hinge-bar');
    const told = without('hinge', 'barbell', 'stick').held();
    expect([told.now, told.stands]).toEqual(['end completed', 'hinge unfinished']);
    const again = without('hinge', 'barbell', 'stick', 'two-bells').lost('knees-forward').held(2);
    expect(again.now).toBe('retest hinge-unloaded');
    expect([again.held().now, again.stands]).toEqual(['end completed', 'hinge working 2']);
  });

  it('3.4 goes back to the alternate of the rung below', () => {
    const told = hinge('bench').held(2);
    expect(told.now).toBe('set 1 bell-hinge');
    told.lost('toes-up').lost('toes-up').lost('toes-up');
    expect([told.now, told.rule]).toEqual(['set 1 wall-hinge', '3.4']);
  });
});

describe('the coach asks for an alternate', () => {
  it('9.7 go-to takes an alternate on its rung, and the way goes on from there', () => {
    const told = hinge().coach('go-to', 'stick-hinge');
    expect(told.step).toMatchObject({ drill: 'stick-hinge', rung: 2, set: 1 });
    expect(told.decision.because).toBe('As you say: on to the stick hinge.');
    expect(told.held(2).now).toBe('set 1 romanian-deadlift');
    expect(homework(told)).toEqual([[2, 'stick-hinge']]);
    expect(told.coach('back').now).toBe('set 1 bell-hinge');
    expect(told.coach('go-to', 'pull-through').coach('back').now).toBe('set 1 bench-hinge');
    expect(told.coach('go-to', 'pull-through').coach('skip').now).toBe('set 1 romanian-deadlift');
  });

  it('9.7 go-to takes a drill whose equipment was said to be missing', () => {
    const told = hinge('kettlebell').coach('go-to', 'bell-hinge');
    expect(told.now).toBe('set 1 bell-hinge');
    expect(told.lost('toes-up').now).toBe('set 2 bell-hinge');
    expect(told.held(2).now).toBe('set 1 romanian-deadlift');
  });

  it('9.7 both drills of a rung may be held, and the rung counts once', () => {
    const told = hinge().coach('go-to', 'stick-hinge').held(2).coach('go-to', 'bell-hinge').held(2);
    expect(homework(told)).toEqual([[2, 'bell-hinge']]);
    expect(told.now).toBe('set 1 romanian-deadlift');
  });

  it('12.3 the drill that held the rung is known, none where no rung was held', () => {
    const told = hinge('bench');
    expect(homework(told)).toEqual([[0, null]]);
    expect(homework(told.held(2))).toEqual([[1, 'wall-hinge']]);
    expect(homework(new Telling('hinge'))).toEqual([[null, null]]);
  });
});

describe('an unloaded drill that stands in for a loaded one', () => {
  const deadlift = (...missing: string[]) => hinge(...missing).coach('go-to', 'deadlift');

  it('1.13 may follow known pain, below the rung where it came', () => {
    const told = deadlift().hurts(4, 'known');
    expect([told.now, told.rule]).toEqual(['set 1 stick-hinge', '1.6']);
    expect(told.held(2).stands).toBe('hinge unfinished 2');
    expect([told.now, told.rule]).toEqual(['retest hinge-unloaded', '2.4']);
  });

  it('1.13 not on the rung where it came, nor above it', () => {
    const told = hinge().coach('go-to', 'pull-through').hurts(3, 'known');
    expect(told.now).toBe('set 1 bench-hinge');
    const refused = told.coach('go-to', 'stick-hinge').decision;
    expect(refused).toMatchObject({ ...CANNOT, step: { drill: 'bench-hinge' } });
    expect(told.held(2).now).toBe('retest hinge-unloaded');
    const press = new Telling('overhead').held(3).lost('ribs-flared').hurts(4, 'known');
    expect(press.coach('back').now).toBe('set 1 hands-only-pullover');
  });

  it('1.13 hurting as well, it goes back further', () => {
    const told = deadlift().hurts(4, 'known').hurts(3, 'known');
    expect([told.now, told.rule]).toEqual(['set 1 bench-hinge', '1.6']);
    expect(told.held(2).now).toBe('retest hinge-unloaded');
  });

  it.each(['new', 'sharp', 'unanswered'] as const)('1.13 never after %s pain', (kind) => {
    const told = deadlift().hurts(2, kind);
    expect([told.now, told.rule]).toEqual(['set 1 bench-hinge', '1.5']);
    expect(told.coach('go-to', 'stick-hinge').decision).toMatchObject(CANNOT);
  });

  it('1.13 never after pain in a check', () => {
    const told = new Telling('hinge').hurts(4, 'known');
    expect(told.held(2).now).toBe('retest hinge-unloaded');
    expect(told.coach('go-to', 'stick-hinge').now).toBe('retest hinge-unloaded');
    expect(told.decision).toMatchObject(CANNOT);
  });

  it('1.13 never once the squat or the hinge bars load in both', () => {
    const told = new Telling('readiness').held(4).hurts(7).lost('shoulders-forward');
    expect(told.now).toBe('set 1 bench-hinge');
    expect(told.coach('go-to', 'stick-hinge').decision).toMatchObject(CANNOT);
    expect(told.coach('go-to', 'wall-hinge').now).toBe('set 1 wall-hinge');
  });

  it('1.13 never after pain in a retest, however far the ladder went', () => {
    const told = new Telling('overhead').lost('ribs-flared').held(3).held(12);
    expect(told.now).toBe('retest overhead-passive left');
    expect(told.hurts(4, 'known').now).toBe('retest overhead-passive right');
    expect(told.coach('go-to', 'hands-only-pullover').decision).toMatchObject(CANNOT);
  });

  it('1.5 new pain ends every drill of its rung', () => {
    const told = hinge().coach('go-to', 'wall-hinge').hurts(1, 'sharp');
    expect([told.now, told.rule]).toEqual(['end completed', '1.7']);
    const walkout = new Telling('overhead').held(3).say('short').hurts(1, 'new');
    expect([walkout.now, walkout.rule]).toEqual(['set 1 supported-hang', '1.5']);
    expect(walkout.held(2).now).toBe('retest overhead-active-standing');
  });
});

describe('alone', () => {
  it('11.5 a drill that a coach has to allow is left out where it was not allowed', () => {
    const told = alone().lost('knees-forward').held(2);
    expect([told.now, told.rule]).toEqual(['retest hinge-unloaded', '2.4']);
    expect(told.decision.because).toBe(
      'Two good sets of the bell hinge. What is above it waits for a day with your coach.',
    );
    expect(alone().lost('hips-first').now).toBe('set 1 bell-hinge');
  });

  it('2.4 a drill that was not allowed is named before equipment', () => {
    const missing = ['kettlebell', 'stick', 'band'];
    const told = new Telling('hinge', 'alone', {}, book, { missing }).lost('knees-forward').held(2);
    expect(told.decision.because).toBe(
      'Two good sets of the bench hinge. What is above it waits for a day with your coach.',
    );
  });

  it('11.5 is done where the coach allowed that very drill', () => {
    expect(alone('deadlift').lost('knees-forward').held(2).now).toBe('set 1 deadlift');
    const told = alone('two-bell-deadlift').lost('knees-forward').held(2);
    expect(told.now).toBe('set 1 two-bell-deadlift');
    expect(told.held(2).rule).toBe('2.4');
  });

  it('11.5 asking for it alone does not allow it', () => {
    const told = alone('deadlift').lost('knees-forward').coach('go-to', 'romanian-deadlift');
    expect(told.decision).toMatchObject({
      ...CANNOT,
      because: 'Alone, the romanian deadlift needs the leave of your coach.',
    });
    expect(told.now).toBe('set 1 bell-hinge');
    expect(told.coach('go-to', 'deadlift').now).toBe('set 1 deadlift');
  });

  it('11.5 is no matter with a coach in the room', () => {
    expect(new Telling('hinge').lost('hips-first').now).toBe('set 1 romanian-deadlift');
  });
});

it('11.4 what is missing stays with the log: a replay gives the same', () => {
  const told = hinge('kettlebell').held(3);
  expect(nextStep(book, JSON.parse(JSON.stringify(told.entries)))).toEqual(told.decision);
});

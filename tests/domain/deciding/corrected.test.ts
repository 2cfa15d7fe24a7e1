import { describe, expect, it } from 'vitest';
import { findingsOf, nextStep } from '../../../src/domain/deciding/deciding';
import { saidFindings } from '../../../src/domain/deciding/corrected';
import { closingFacts, correctionFacts } from '../../../src/domain/deciding/correction';
import { courseOf } from '../../../src/domain/deciding/walking';
import type { EntryOf } from '../../../src/domain/log';
import { outcomeOf } from '../../../src/domain/reporting/report';
import { book } from '../reporting/book';
import { Telling } from './logging';

const session = (routine: string) => new Telling(routine, 'hands-on', {}, book);
const NO_PAIN = { pain: null, painKind: null } as const;
/** The unloaded hinge failed at rung 2, two rungs were held, and both checks held again. */
const cameBack = () => session('hinge').lost('knees-forward').held(6).held(2);
/** The same, but it failed again. */
const failedAgain = () => session('hinge').lost('knees-forward').held(6).lost('toes-up');
/** A result that is said while the number of a pain is asked. */
const meanwhileHeld = () => {
  const told = session('hinge').hurts(null);
  const hurt = told.entries.at(-1) as EntryOf<'finding'>;
  return told.add({ ...hurt, result: 'held' });
};
const allHeld = () => session('hinge').held(2);
const homework = ({ entries }: Telling) =>
  outcomeOf(book, entries).homework.map((one) => one.drill);
const outcomes = ({ entries }: Telling) =>
  entries.flatMap((entry) => (entry.type === 'outcome' ? [entry.outcome] : []));

describe('14 corrected after the session', () => {
  it('14.1 what was said stays, and the last correction counts', () => {
    const told = failedAgain();
    const before = [...told.entries];
    told.correct(1, { faults: ['back-rounded'] }).correct(1, { faults: ['toes-up'] });
    expect(told.entries.slice(0, before.length)).toEqual(before);
    expect(findingsOf(told.entries)[0]).toMatchObject({ result: 'lost', faults: ['toes-up'] });
    expect(saidFindings(told.entries)[0]).toMatchObject({
      first: { faults: ['knees-forward'] },
      corrections: [{ faults: ['back-rounded'] }, { faults: ['toes-up'] }],
    });
  });

  it('14.1 corrected back to what was said, everything stands as it stood', () => {
    const told = cameBack();
    const stood = outcomeOf(book, told.entries);
    expect(told.correct(-1, { result: 'lost', faults: ['back-rounded'] }).stands).toBe(
      'hinge working 4',
    );
    told.correct(-1, { result: 'held', faults: [] });
    expect(outcomeOf(book, told.entries)).toEqual(stood);
    expect(outcomes(told)).toEqual(['working', 'ready']);
  });

  it('14.2 drills that were done stay done, and nothing is asked anew', () => {
    const told = failedAgain();
    const sets = courseOf(book, told.entries).areas.get('hinge')?.climb?.sets;
    told.correct(1, { result: 'held', faults: [] });
    expect(courseOf(book, told.entries).areas.get('hinge')?.climb?.sets).toBe(sets);
    expect(told.now).toBe('end stopped');
  });

  it('14.2 a check that was left out for what was corrected since was passed by, not left by the coach', () => {
    const told = session('hinge').lost('knees-forward').held(2);
    told.correct(1, { result: 'held', faults: [] });
    const [hinge] = outcomeOf(book, told.entries).areas;
    expect(hinge?.notTested.map(({ check, why }) => [check, why])).toEqual([
      ['hinge-bar', 'passed-by'],
    ]);
    expect(hinge?.reasons.join(' ')).toContain('the session had gone on without it');
  });

  it('14.2 counts for another side where the side was mistaken', () => {
    const told = session('overhead').held().lost('ribs-flared').held(2);
    const failed = () => outcomeOf(book, told.entries).areas[0]?.failed.map(({ side }) => side);
    expect(failed()).toEqual(['right']);
    told.correct(1, { side: 'right' }).correct(2, { side: 'left' });
    expect(failed()).toEqual(['left', 'right'].slice(0, 1));
  });

  it('14.2 the later answer for a side still replaces the earlier one', () => {
    const told = session('overhead').lost('ribs-flared').say('held', { side: 'left' }).held(3);
    expect(told.stands).toBe('overhead ready');
    expect(told.correct(1, { faults: ['back-arched'] }).stands).toBe('overhead ready');
  });

  it('14.3 lifts, homework, date and outcome are those of the corrected findings', () => {
    const told = cameBack();
    expect(outcomeOf(book, told.entries).liftsReady).toEqual(['pulls']);
    told.correct(-1, { result: 'lost', faults: ['hips-first'] });
    expect(outcomeOf(book, told.entries)).toMatchObject({
      liftsReady: [],
      nextDate: '2031-03-08',
      homework: [{ drill: 'deadlift' }],
    });
    expect(told.entries.at(-1)).toMatchObject({ type: 'outcome', outcome: 'working', rung: 4 });
  });

  it('14.3 tells no outcome anew where none is another', () => {
    const told = failedAgain().correct(1, { faults: ['back-rounded'] });
    expect(told.entries.at(-1)?.type).toBe('corrected');
  });

  it('14.4 a first test corrected to held never makes an area ready by itself', () => {
    const told = session('hinge').lost('knees-forward').held(6);
    expect(told.correct(1, { result: 'held', faults: [] }).stands).toBe('hinge unfinished 4');
    expect(outcomeOf(book, told.entries).liftsReady).toEqual([]);
    const all = allHeld().correct(2, { result: 'lost', faults: ['bar-away'] });
    expect(all.correct(2, { result: 'held', faults: [] }).stands).toBe('hinge ready');
  });

  it('14.4 nor where it was said not to be tested', () => {
    const told = session('hinge').held().say('not-tested');
    expect(told.stands).toBe('hinge unfinished');
    expect(told.correct(2, { result: 'held' }).stands).toBe('hinge unfinished');
  });

  it('14.4 with its retest held it is ready, also where the retest was corrected to held', () => {
    expect(cameBack().correct(1, { result: 'held', faults: [] }).stands).toBe('hinge ready 4');
    const told = session('hinge').held().lost('hips-first').held(4).lost('hips-first');
    expect(told.stands).toBe('hinge working 4');
    expect(told.correct(-1, { result: 'held', faults: [] }).stands).toBe('hinge ready 4');
  });

  it('14.4 a retest that was lost still counts where the first test is corrected to held', () => {
    const told = failedAgain().correct(1, { result: 'held', faults: [] });
    expect(told.stands).toBe('hinge working 4');
  });

  it('14.5 a first test corrected to failed is not ready', () => {
    const told = allHeld();
    expect(told.stands).toBe('hinge ready');
    told.correct(1, { result: 'lost', faults: ['back-rounded'] });
    expect(told.stands).toBe('hinge unfinished');
    expect(outcomes(told)).toEqual(['unfinished']);
    const climbed = cameBack().correct(-2, { result: 'held' });
    expect(climbed.stands).toBe('hinge ready 4');
    const bar = session('hinge').held().lost('hips-first').held(4).held();
    expect(bar.correct(1, { result: 'lost', faults: ['back-rounded'] }).stands).toBe(
      'hinge working 4',
    );
  });

  it('14.6 the rung held last is that of two held sets in a row as they count now', () => {
    const told = failedAgain();
    expect(homework(told)).toEqual(['deadlift']);
    told.correct(-2, { result: 'lost', faults: ['back-rounded'] });
    expect(told.stands).toBe('hinge working 3');
    expect(homework(told)).toEqual(['romanian-deadlift']);
  });

  it('14.6 a set that is corrected to held may hold its rung, which was left', () => {
    const told = session('hinge').lost('shoulders-forward').held().lost('back-rounded').lost();
    told.lost('back-rounded');
    expect(told.correct(3, { result: 'held', faults: [] }).stands).toBe('hinge working 1');
  });

  it('14.6 a set of which one side is missing is not held', () => {
    const press = () => session('overhead').held(3).lost('ribs-flared').held(4);
    const told = press();
    for (const reading of told.entries) expect(reading.id).toBeTruthy();
    expect(courseOf(book, told.entries).areas.get('overhead')?.climb?.lastHeld).toBe(4);
    told.correct(-1, { side: 'left' });
    expect(courseOf(book, told.entries).areas.get('overhead')?.climb?.lastHeld).toBe(0);
  });

  it('14.7 pain that is added refers, bars load and homework as if it had been told', () => {
    const referred = cameBack().correct(4, { result: 'pain', pain: 7, painKind: 'known' });
    expect(referred.stands).toBe('hinge referred 4');
    const sharp = failedAgain().correct(3, { result: 'pain', pain: 3, painKind: 'sharp' });
    expect(outcomeOf(book, sharp.entries)).toMatchObject({
      homework: [],
      noHomework: [{ rule: '13.14' }],
    });
    const known = cameBack().correct(3, { result: 'pain', pain: 4, painKind: 'known' });
    expect(outcomeOf(book, known.entries)).toMatchObject({
      liftsReady: [],
      areas: [{ outcome: 'ready', waitsFor: 'coach' }],
    });
    const check = allHeld().correct(1, { result: 'pain', pain: 1, painKind: 'new' });
    expect(check.stands).toBe('hinge referred');
  });

  it('14.7 squat pain that is added bars load in the hinge too', () => {
    const told = session('readiness').held(8);
    expect(outcomeOf(book, told.entries).liftsReady).toContain('pulls');
    told.correct(5, { result: 'pain', pain: 8, painKind: 'known' });
    expect(outcomeOf(book, told.entries).liftsReady).toEqual(['press']);
  });

  it('14.7 a number and a kind that nobody gave count as the worse', () => {
    const number = allHeld().correct(1, { result: 'pain', pain: 'unanswered' });
    expect(number.stands).toBe('hinge referred');
    const kind = allHeld().correct(1, { result: 'pain', pain: 2, painKind: 'unanswered' });
    expect(kind.stands).toBe('hinge referred');
    expect(findingsOf(kind.entries)[0]).toMatchObject({ pain: 2, painKind: 'unanswered' });
  });

  it('14.7 pain that is taken away no longer refers, and makes nothing ready', () => {
    const told = session('hinge').hurts(8);
    expect(told.stands).toBe('hinge referred');
    told.correct(1, { result: 'held', ...NO_PAIN });
    expect(told.stands).toBe('hinge unfinished');
    expect(findingsOf(told.entries)[0]).toMatchObject({ result: 'held', pain: null });
  });

  it('14.7 pain that was told after it, with another finding, stays', () => {
    const told = meanwhileHeld().number(7);
    expect(told.stands).toBe('hinge referred');
    expect(told.correct(1, { result: 'held', ...NO_PAIN }).stands).toBe('hinge referred');
  });

  it('14.7 pain of a finding that others followed before its number counts where it is added', () => {
    const told = meanwhileHeld().number(0).held();
    expect(told.stands).toBe('hinge ready');
    expect(told.correct(1, { pain: 9, painKind: 'known' }).stands).toBe('hinge referred');
  });

  it('14.8 what a red flag referred stays referred', () => {
    const told = session('hinge').lost('knees-forward').redFlag('chest-pain');
    const stood = outcomeOf(book, told.entries);
    told.correct(1, { result: 'held', faults: [] });
    expect(told.stands).toBe('hinge referred 0');
    expect(outcomeOf(book, told.entries).nextVisit).toEqual(stood.nextVisit);
    expect(told.now).toBe('end red-flag');
  });

  it('14.9 a session that never ended is closed before it is corrected', () => {
    const told = session('hinge').lost('knees-forward').held();
    const [one] = saidFindings(told.entries);
    const correction = { finding: one!.finding, of: null, said: { ...one!.first, faults: [] } };
    const correct = () => correctionFacts(book, told.entries, correction, '2031-03-02T10:00:00Z');
    expect(correct).toThrow(/has not ended/);
    const facts = closingFacts(book, told.entries);
    expect(facts).toEqual([
      { type: 'outcome', area: 'hinge', outcome: 'unfinished', rung: 0 },
      { type: 'ended', reason: 'stopped' },
    ]);
    for (const fact of facts) told.add(fact);
    expect(correct()[0]).toMatchObject({ type: 'corrected', faults: [] });
    expect(nextStep(book, told.entries).step).toEqual({ do: 'end', reason: 'stopped' });
  });

  it('14.9 one that was cut off after a warning sign is closed as ended by it', () => {
    const told = session('hinge').redFlag('faint-dizzy');
    expect(closingFacts(book, told.entries).at(-1)).toEqual({ type: 'ended', reason: 'red-flag' });
  });

  it('14.9 a finding that was taken back cannot be corrected', () => {
    const told = session('hinge').lost('knees-forward');
    const [one] = saidFindings(told.entries);
    told.undo(one!.finding.id).add({ type: 'ended', reason: 'stopped' });
    const correction = { finding: one!.finding, of: null, said: one!.first };
    expect(() => correctionFacts(book, told.entries, correction, '')).toThrow(/no finding/);
  });

  it('14.11 one side of a finding of both is corrected, and the other stays', () => {
    const told = session('overhead').say('held', { side: 'both' }).held(2);
    told.correct(1, { result: 'short', faults: ['arms-short'] }, 'right');
    const { areas } = outcomeOf(book, told.entries);
    expect(areas[0]?.failed).toMatchObject([{ check: 'overhead-passive', side: 'right' }]);
    expect(findingsOf(told.entries).slice(0, 2)).toMatchObject([
      { side: 'left', result: 'held', faults: [] },
      { side: 'right', result: 'short', faults: ['arms-short'] },
    ]);
  });
});

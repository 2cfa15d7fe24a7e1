import { describe, expect, it } from 'vitest';
import { areaStates } from '../../../src/domain/deciding/deciding';
import { closingWords } from '../../../src/domain/reporting/closing';
import { outcomeSaid } from '../../../src/domain/reporting/outcomeWords';
import { reportOf } from '../../../src/domain/reporting/report';
import type { Telling } from '../deciding/logging';
import { begin, book } from './book';

const report = (told: Telling) => reportOf(book, told.entries);
const sentences = (told: Telling) => report(told).areas.map(({ sentence }) => sentence);
const spoken = (told: Telling) =>
  areaStates(book, told.entries).map((state) => outcomeSaid(book, told.entries, state));
const missing = (told: Telling, lift: string) =>
  report(told).liftsMissing.find((one) => one.lift === lift)?.sentence;
/** Leaves out what is left of the ladder, and lets hold what is tested again. */
const comeBack = (told: Telling) => {
  while (told.step.do === 'set') told.coach('next');
  while (told.step.do === 'check') told.held();
  return told;
};
/** Sharp pain at the bell hinge; the rung below holds, and so does the unloaded check. */
const sharpBack = () => comeBack(begin('hinge').lost('knees-forward').hurts(3, 'sharp').held(2));

describe('after new or sharp pain', () => {
  it('13.14 there is no homework in that area, and a licensed professional looks first', () => {
    const told = sharpBack();
    expect(told.stands).toBe('hinge working 1');
    const { homework, noHomework } = report(told);
    expect(homework).toEqual([]);
    expect(noHomework).toEqual([
      {
        area: 'hinge',
        rule: '13.14',
        because:
          'Hinge: no homework. A licensed professional looks at that pain before more of it.',
      },
    ]);
    const first = 'No more of the hinge until a licensed professional has looked at what hurt.';
    expect(spoken(told)).toEqual([first]);
    expect(sentences(told)).toEqual([first]);
    expect(closingWords(book, told.entries)).toEqual([]);
    expect(report(told).cautions[0]).toMatch(/new or sharp pain in the hinge/);
    expect(report(told).nextVisit).toMatchObject({ date: null, rule: '13.12' });
  });

  it.each(['new', 'sharp', 'unanswered'] as const)(
    '13.14 counts %s pain, at any number',
    (kind) => {
      const told = comeBack(begin('hinge').lost('knees-forward').hurts(1, kind).held(2));
      expect(report(told).noHomework.map(({ rule }) => rule)).toEqual(['13.14']);
      const none = comeBack(begin('hinge').lost('knees-forward').hurts(0, kind).held(2));
      expect(report(none).noHomework.map(({ rule }) => rule)).toEqual(['13.14']);
    },
  );

  it('13.14 counts a kind that was not said before the session ended', () => {
    const told = begin('hinge').lost('knees-forward').hurts(3);
    expect(told.now).toBe('ask pain-kind');
    told.halt().end(true);
    expect(report(told).nextVisit).toMatchObject({ date: null, rule: '13.12' });
    expect(sentences(told)[0]).toMatch(/^No more of the hinge until a licensed professional/);
  });

  it('13.14 leaves known pain, pain that was taken back and other areas their homework', () => {
    const known = begin('hinge').lost('knees-forward').hurts(4, 'known').held(2);
    expect(report(comeBack(known)).homework).toHaveLength(1);
    const undone = begin('hinge').lost('knees-forward').hurts(3, 'sharp');
    undone.undo(undone.entries.findLast(({ type }) => type === 'finding')!.id).held(2);
    while (undone.step.do === 'set') undone.coach('next');
    undone.lost('knees-forward');
    expect(report(undone).homework).toHaveLength(1);
    const both = begin('readiness').held(4).lost('heels-up').lost('knees-forward').held(2);
    while (both.step.do === 'set' && both.step.area === 'squat') both.coach('next');
    both.hurts(3, 'sharp');
    while (both.step.do === 'set') both.coach('next');
    while (both.step.do === 'check') both.lost('heels-up');
    expect(report(both).homework.map(({ area }) => area)).toEqual(['squat']);
    expect(report(both).nextVisit).toMatchObject({ rule: '13.9', date: '2031-03-08' });
    expect(report(both).nextVisit.because).toMatch(/decided, leave out: hinge/);
  });

  it('13.9 where pain left no homework the next visit does not promise any', () => {
    const told = begin('squat').lost('heels-up').hurts(4, 'known');
    expect(report(told).noHomework.map(({ rule }) => rule)).toEqual(['13.4']);
    expect(report(told).nextVisit).toMatchObject({ rule: '13.9', date: '2031-03-08' });
    expect(report(told).nextVisit.because).toBe('In a week, test the squat again.');
  });
});

describe('lifts after pain', () => {
  it('12.12 hinge pain above the line bars every lift that needs squat or hinge', () => {
    const told = begin('readiness').held(6).hurts(7);
    expect(told.stands).toBe('overhead ready, squat ready, hinge referred');
    expect(report(told).liftsReady).toEqual(['press']);
    expect(closingWords(book, told.entries)).toEqual(['These may be taught next: presses.']);
    expect(missing(told, 'front-squat')).toBe(
      'Front squat: missing squat (no load after pain, until a licensed professional has decided).',
    );
    expect(missing(told, 'pulls')).toBe(
      'Pulls and deadlifts: missing hinge (a licensed professional decides first).',
    );
    expect(report(told).areas.map(({ waitsFor }) => waitsFor)).toEqual([
      null,
      'professional',
      'professional',
    ]);
    const jerk = report(told).liftsMissing.find(({ lift }) => lift === 'jerk');
    expect(jerk?.missing).toEqual([
      { area: 'squat', outcome: 'ready', rung: null, barredByPain: true },
    ]);
    expect(spoken(told)[1]).toBe(
      'The squat held. Nothing loaded in it until a licensed professional has decided.',
    );
  });

  it('12.12 squat pain above the line bars the pulls, though the hinge held', () => {
    const told = begin('readiness').held(4).lost('heels-up').held(2).hurts(7);
    expect(told.step.do).toBe('end');
    expect(told.stands).toMatch(/squat referred 0, hinge ready/);
    expect(report(told).liftsReady).toEqual(['press']);
  });

  it('12.12 overhead pain that bars load keeps presses back until somebody has looked', () => {
    const after = (kind: 'sharp' | 'known') =>
      comeBack(begin('overhead').held(3).lost('back-arched').hurts(3, kind));
    expect(after('sharp').stands).toBe('overhead ready 0');
    expect(report(after('sharp')).liftsReady).toEqual([]);
    expect(missing(after('sharp'), 'press')).toMatch(/until a licensed professional has decided/);
    expect(report(after('known')).liftsReady).toEqual([]);
    expect(missing(after('known'), 'press')).toMatch(/until a coach has tested it again/);
    expect(spoken(after('known'))[0]).toBe(
      'The overhead reach held. Nothing loaded in it until the coach has tested it another day.',
    );
  });

  it('12.12 pain that may go on keeps nothing back', () => {
    const told = begin('hinge').say('held', { pain: 2 }).kind('known').held();
    expect(report(told).liftsReady).toEqual(['pulls']);
    expect(spoken(told)).toEqual(['The hinge is ready to be taught.']);
  });
});

describe('what an athlete found alone', () => {
  it('12.13 is a report to be shown to a coach, not lifts to be taught', () => {
    const told = begin('hinge', 'alone').held(2);
    expect(told.stands).toBe('hinge ready');
    expect(report(told)).toMatchObject({ reportedBy: 'athlete', liftsReady: ['pulls'] });
    expect(closingWords(book, told.entries)).toEqual([
      'Show these to your coach next: pulls and deadlifts.',
    ]);
    expect(spoken(told)).toEqual(['You say that the hinge held. Your coach has yet to see it.']);
    expect(report(told).cautions.join(' ')).toMatch(/found alone is your own report/);
    expect(report(begin('hinge').held(2)).reportedBy).toBe('coach');
  });
});

describe('an area of which all that failed came back', () => {
  it('12.14 says so where another check was left untested', () => {
    const told = begin('hinge').lost('knees-forward').held(2);
    while (told.step.do === 'set') told.coach('next');
    told.held();
    expect(told.now).toBe('retest hinge-bar');
    told.coach('skip');
    expect(told.stands).toMatch(/^hinge working/);
    expect(report(told).areas[0]?.pattern).toBeNull();
    const sentence = 'What had failed in the hinge came back, but not every check was tested.';
    expect([spoken(told), sentences(told)]).toEqual([[sentence], [sentence]]);
  });
});

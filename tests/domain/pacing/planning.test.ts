import { describe, expect, it } from 'vitest';
import table from '../../../src/cues/durations.json';
import { loadBook } from '../../../src/cues/fromFolder';
import { WORDS } from '../../../src/domain/log';
import { secondsOf } from '../../../src/domain/pacing/duration';
import { BREATH_SECONDS, type PacedLine } from '../../../src/domain/pacing/line';
import { askOf, planOf, planStep } from '../../../src/domain/pacing/planning';
import { checksOf, textOf, type CueBook } from '../../../src/domain/script';
import { checkStep, evenly, readable, setStep } from './readable';

const book = loadBook('scripts-cues', 'en');
const measured = (text: string) => secondsOf(table, text);
const isSettling = ({ phase }: PacedLine) => phase === 'settling';
const said = (lines: PacedLine[]) => lines.flatMap(({ text }) => text ?? []);

describe('a plan as it is heard', () => {
  it('one side of a check: the side first, the set-up, a counted exhale, the hold, two breaths', () => {
    const step = checkStep('overhead-passive', { side: 'left' });
    expect(readable(planStep(book, step, evenly))).toEqual([
      '0.0 cueing 1.5 "Left side."',
      '1.5 cueing 6.5 "Lie on your back with your knees bent and your feet flat."',
      '8.0 settling 4',
      '12.0 cueing 6 "Coach, ask first, then lay one hand on the lower ribs."',
      '18.0 settling 5',
      '23.0 cueing 5.5 "On the next breath out, go slowly while I count."',
      '28.5 cueing 4 "Take a breath in through the nose."',
      '32.5 settling 2',
      '34.5 exhaling 5 [0:one 1:two 2:three 3:four 4:five]',
      '39.5 cueing 3 "Coach, lift the arm slowly."',
      '42.5 cueing 5.5 "Let your arm be heavy, and breathe as you like."',
      '48.0 holding 4',
      '52.0 cueing 4 "Lower the arm. Take two normal breaths."',
      '56.0 resting 8',
    ]);
    expect(askOf(book, step)).toBe('What did you find on this side?');
  });

  it('a set: each rep by its number, with its pause at the knee', () => {
    const lines = planStep(book, setStep('deadlift'), evenly, { words: 'learning', known: 'on' });
    expect(readable(lines).slice(0, 11)).toEqual([
      '0.0 cueing 6 "Stand a few inches from the bar, feet under your hips."',
      '6.0 settling 2',
      '8.0 cueing 5 "Four slow ones, a small breath in before each."',
      '13.0 settling 3',
      '16.0 cueing 7 "Hips behind you, chest long. Take the bar, and stand up with it."',
      '23.0 settling 4',
      '27.0 repeating 1.5 rep 1 [0:one]',
      '28.5 pausingAtKnee 2 rep 1 "Stay."',
      '30.5 repeating 1.5 rep 1',
      '32.0 repeating 1.5 rep 1',
      '33.5 pausingAtKnee 2 rep 1 "Stay."',
    ]);
    expect(readable(lines.slice(-2))).toEqual([
      '65.5 repeating 1.5 rep 4',
      '67.0 cueing 2.5 "Put the bar down."',
    ]);
  });

  it('a rep that turns at the knee pauses there once, at the bottom', () => {
    const rep = planStep(book, setStep('romanian-deadlift'), evenly).filter(({ rep }) => rep === 2);
    expect(rep.map(({ phase, seconds }) => [phase, seconds])).toEqual([
      ['repeating', 3],
      ['pausingAtKnee', 2],
      ['repeating', 2],
    ]);
  });

  it('a long exhale on the way down of each rep, counted, and breathing in on the way up', () => {
    const rep = planStep(book, setStep('lying-pullover'), evenly).filter(({ rep }) => rep === 6);
    expect(rep.map(({ phase, seconds }) => [phase, seconds])).toEqual([
      ['exhaling', 5],
      ['repeating', 3],
    ]);
    expect(rep[0]?.beats.map(({ text }) => text)).toEqual(['one', 'two', 'three', 'four', 'five']);
  });

  it('normal breaths at the far point, each told', () => {
    const rep = planStep(book, setStep('hands-knees-walkout'), evenly).filter((l) => l.rep === 1);
    expect(rep[1]).toMatchObject({ phase: 'holding', seconds: 8 });
    expect(rep[1]?.beats.map(({ atSeconds, text }) => [atSeconds, text])).toEqual([
      [0, 'Breathe.'],
      [4, 'Breathe.'],
    ]);
  });

  it('as many long breaths as the dose says, with a breath in between', () => {
    const lines = planStep(book, setStep('supported-hang'), evenly);
    const breaths = lines.filter(({ phase }) => phase === 'exhaling' || phase === 'resting');
    expect(breaths.map(({ phase, seconds }) => [phase, seconds])).toEqual([
      ['exhaling', 6],
      ['resting', 3],
      ['exhaling', 6],
      ['resting', 3],
      ['exhaling', 6],
      ['resting', 8],
    ]);
  });
});

describe('what is said before the work', () => {
  const drill = book.drills['bell-hinge']!;
  const { setUp, setUpAgain, fixes, good, easier, heavier, caution } = drill;
  const take = drill.steps[0]!.text;

  it('the caution and the full set-up the first time, the short set-up when it comes back', () => {
    const before = (lines: PacedLine[]) => said(lines).slice(0, said(lines).indexOf(take!));
    expect(before(planStep(book, setStep('bell-hinge'), evenly))).toEqual([
      caution,
      ...setUp.map(textOf),
    ]);
    expect(before(planStep(book, setStep('bell-hinge'), evenly, { known: 'back' }))).toEqual(
      setUpAgain.map(textOf),
    );
  });

  it.each([
    ['the second side', { side: 'right' as const }, 'on' as const],
    ['another try', { side: 'left' as const, try: 2 }, 'on' as const],
    ['a retest', { side: 'left' as const, retest: true }, 'back' as const],
  ])('the short set-up for %s of a check', (_, more, known) => {
    const texts = said(planStep(book, checkStep('overhead-passive', more), evenly, { known }));
    expect(texts.slice(1, 3)).toEqual(book.checks['overhead-passive']!.setUpAgain.map(textOf));
  });

  it('one fix, and only that one', () => {
    const texts = said(planStep(book, setStep('bell-hinge', { fix: 'knees-forward' }), evenly));
    const cues = fixes.filter(({ cue }) => texts.includes(cue));
    expect(cues.map(({ fault }) => fault)).toEqual(['knees-forward']);
  });

  it('what good looks like, where no fault was named', () => {
    const texts = said(planStep(book, setStep('bell-hinge', { sayGood: true }), evenly));
    expect(texts).toContain(good);
    expect(said(planStep(book, setStep('bell-hinge'), evenly))).not.toContain(good);
  });

  it('time to look at what hurts, before anything is set up', () => {
    const [words, look, caution] = planStep(
      book,
      setStep('bell-hinge', { lookFirst: true }),
      evenly,
    );
    expect(words?.text).toBe(book.lines['say.look-first']);
    expect(look).toMatchObject({ phase: 'settling', seconds: 30, text: null });
    expect(caution?.text).toBe(book.drills['bell-hinge']?.caution);
  });

  it('that it is set up back, after it was done easier, with the time for it', () => {
    const lines = planStep(book, setStep('bell-hinge', { restored: true }), evenly, {
      known: 'back',
    });
    const at = lines.findIndex(({ text }) => text === book.lines['say.restored']);
    expect(lines[at + 1]).toMatchObject({ phase: 'settling', seconds: 10 });
  });

  it('how the load changes', () => {
    const of = (load: Parameters<typeof setStep>[1]) =>
      said(planStep(book, setStep('bell-hinge', load), evenly, { known: 'on' }));
    expect(of({ load: 'raised' })).toContain(easier!.cue);
    expect(of({ load: 'heavier' })).toContain(heavier!.cue);
    expect(of({ load: 'unloaded' })).toContain(book.lines['say.unloaded']);
    expect(of({ load: 'as-written' })).not.toContain(easier!.cue);
  });

  it('time to change the load, and none where only the way is shorter', () => {
    const after = (id: string, load: 'raised' | 'heavier' | 'shallower') => {
      const { easier, heavier } = book.drills[id]!;
      const cue = (load === 'heavier' ? heavier : easier)!.cue;
      const lines = planStep(book, setStep(id, { load }), evenly, { known: 'back' });
      const { settleSeconds } = book.drills[id]!;
      const settling = lines
        .slice(lines.findIndex(({ text }) => text === cue) + 1)
        .filter(isSettling);
      const take = book.drills[id]!.steps[0]!;
      const takeSeconds = take.do === 'say' ? (take.thenSeconds ?? 0) : 0;
      return settling.reduce((sum, { seconds }) => sum + seconds, 0) - settleSeconds - takeSeconds;
    };
    expect(after('bell-hinge', 'raised')).toBe(10);
    expect(after('bell-hinge', 'heavier')).toBe(10);
    expect(after('cable-squat', 'shallower')).toBe(0);
  });
});

const drills = Object.values(book.drills);
const TELLINGS = WORDS.flatMap((words) =>
  (['new', 'back', 'on'] as const).map((known) => ({ words, known })),
);
const everySet = (id: string, tellings = TELLINGS) =>
  tellings.map((telling) => planStep(book, setStep(id), measured, telling));

// Common practice, no source: nobody waits under a load or in a stretched position.
it.each(drills)('a set of $id says what to take last, and begins within six seconds', (drill) => {
  for (const lines of everySet(
    drill.id,
    TELLINGS.filter(({ words }) => words !== 'tones'),
  )) {
    const first = lines.findIndex(({ beats }) => beats.length > 0);
    expect(lines[first - 2]).toMatchObject({ phase: 'cueing', text: drill.steps[0]!.text });
    expect(lines[first - 1]).toMatchObject({ phase: 'settling' });
    expect(lines[first - 1]!.seconds).toBeGreaterThanOrEqual(2);
    expect(lines[first - 1]!.seconds).toBeLessThanOrEqual(6);
  }
});

it.each(drills.filter(({ loaded }) => loaded))('a set of $id ends by putting it down', ({ id }) => {
  for (const lines of everySet(id)) {
    expect(said(lines).findLast((text) => !text.startsWith('Breathe'))).toMatch(
      /^Put the .* down\.|rack the bar\.$|slack\.$|^Take .* off\.$/i,
    );
  }
});

/** Every check side and every set that the book can come to, told in every way. */
const everyPlan = (of: CueBook): [string, PacedLine[]][] =>
  TELLINGS.flatMap((telling) => {
    const how = `${telling.words} ${telling.known}`;
    return [
      ...Object.values(of.checks).flatMap((check) =>
        (check.sided ? (['left', 'right'] as const) : [null]).map((side): [string, PacedLine[]] => [
          `check/${check.id} ${how}`,
          planStep(of, checkStep(check.id, { side }), measured, telling),
        ]),
      ),
      ...Object.values(of.drills).flatMap((drill) =>
        drill.fixes
          .slice(0, 2)
          .map(({ fault: fix }): [string, PacedLine[]] => [
            `set/${drill.id} ${fix} ${how}`,
            planStep(of, setStep(drill.id, { fix }), measured, telling),
          ]),
      ),
    ];
  });

describe('every plan of the shipped scripts', () => {
  it.each(everyPlan(book))('%s: one line after the other, nothing overlaps', (_, lines) => {
    lines.forEach(({ atSeconds, seconds, phase, text }, index) => {
      const next = lines[index + 1];
      if (next) expect(next.atSeconds).toBeCloseTo(atSeconds + seconds, 6);
      expect(seconds).toBeGreaterThan(0);
      if (phase === 'cueing') expect(text).not.toBeNull();
      if (text === null) return;
      const breath = phase === 'cueing' ? BREATH_SECONDS : 0;
      expect(measured(text) + breath, text).toBeLessThanOrEqual(seconds);
    });
  });

  it.each(everyPlan(book))(
    '%s: each count ends before the next and inside its line',
    (_, lines) => {
      for (const { seconds, beats } of lines) {
        beats.forEach(({ atSeconds, text }, index) => {
          const until = beats[index + 1]?.atSeconds ?? seconds;
          expect(atSeconds + measured(text ?? ''), text ?? '').toBeLessThanOrEqual(until);
        });
      }
    },
  );

  it.each(everyPlan(book))(
    '%s: exhales of 4 to 8 s, at most 6, then two normal breaths',
    (_, lines) => {
      const exhales = lines.filter(({ phase }) => phase === 'exhaling');
      for (const { seconds, beats } of exhales) {
        expect(seconds).toBeGreaterThanOrEqual(4);
        expect(seconds).toBeLessThanOrEqual(8);
        expect(beats.map(({ atSeconds }) => atSeconds)).toEqual(
          Array.from({ length: seconds }, (_second, second) => second),
        );
      }
      expect(exhales.length).toBeLessThanOrEqual(6);
      if (exhales.length > 0) expect(lines.at(-1)).toMatchObject({ phase: 'resting', seconds: 8 });
    },
  );

  it('never tell anybody to hold a breath', () => {
    const texts = everyPlan(book).flatMap(([, lines]) => said(lines));
    expect(texts.filter((text) => /hold (your |the |a )?breath|don't breathe/i.test(text))).toEqual(
      [],
    );
  });

  it('are spoken at 130 to 150 words a minute', () => {
    const texts = [...new Set(everyPlan(book).flatMap(([, lines]) => said(lines)))];
    const words = texts.join(' ').split(' ').length;
    const minutes = texts.reduce((sum, text) => sum + measured(text), 0) / 60;
    expect(words / minutes).toBeGreaterThan(130);
    expect(words / minutes).toBeLessThan(150);
  });
});

describe('the plan of a whole routine', () => {
  it('has every check by side, two sets a rung, and the retests', () => {
    const steps = planOf(book, book.routines['overhead']!, measured).map(({ step }) => step);
    expect(steps.slice(0, 5)).toEqual([
      'check/overhead-passive left',
      'check/overhead-passive right',
      'check/overhead-active-lying',
      'check/overhead-active-standing',
      'set/supported-hang set 1',
    ]);
    expect(steps).toContain('set/half-kneeling-press right set 2');
    expect(steps.at(-1)).toBe('check/overhead-active-standing retest');
    expect(steps).toHaveLength(4 + 6 * 2 + 4);
  });

  it('takes under nine minutes for a readiness session in which every check is held', () => {
    const checks = planOf(book, book.routines['readiness']!, measured).filter(
      ({ step }) => step.startsWith('check/') && !step.endsWith('retest'),
    );
    expect(checks).toHaveLength(checksOf(book, 'overhead').length + 1 + 4);
    const seconds = checks.reduce((sum, check) => sum + check.seconds, 0);
    expect(seconds).toBeLessThan(9 * 60);
  });
});

describe('what cannot be planned', () => {
  it('a check or drill that is not there names the known ones', () => {
    expect(() => planStep(book, checkStep('knees'), evenly)).toThrow(/no check "knees".*hinge-bar/);
    expect(() => planStep(book, setStep('swing'), evenly)).toThrow(/no drill "swing".*deadlift/);
  });

  it('asks what the pain questions and the end ask, and nothing at the end', () => {
    const ask = { do: 'ask', prompt: 'pain/how-much', area: null } as const;
    expect(askOf(book, { ...ask, about: 'pain-number' })).toBe(book.lines['ask.pain-number']);
    expect(askOf(book, { ...ask, about: 'end-session' })).toBe(book.lines['confirm.end']);
    expect(askOf(book, { do: 'end', reason: 'completed' })).toBe('');
  });
});

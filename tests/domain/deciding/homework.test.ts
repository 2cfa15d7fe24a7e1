import { describe, expect, it } from 'vitest';
import { areaStates, liftsReady } from '../../../src/domain/deciding/deciding';
import type { HandoverTask } from '../../../src/domain/handover/handover';
import { REST_SECONDS } from '../../../src/domain/pacing/oneStep';
import { outcomeOf } from '../../../src/domain/reporting/report';
import { book, brief, Days, handedOver } from '../handover/days';

const HINGE: HandoverTask = {
  ...{ area: 'hinge', drill: 'bench-hinge', rung: 1, load: 'as-written' },
};
const BELL: HandoverTask = {
  ...{ area: 'hinge', drill: 'bell-hinge', rung: 2, load: 'as-written' },
};
const GOBLET: HandoverTask = {
  ...{ area: 'squat', drill: 'goblet-squat', rung: 3, load: 'as-written' },
};
const MORNING = '2031-03-02T09:00:00+01:00';
const NEXT = '2031-03-03T09:00:00+01:00';

const one = (tasks: HandoverTask[], ...replies: string[]) =>
  new Days(handedOver(tasks)).do(MORNING, replies, 'pass');
const endOf = ({ last }: Days) => last?.entries.at(-1);
const outcomes = ({ last }: Days) =>
  areaStates(book, last?.entries ?? []).map(({ area, outcome }) => `${area} ${outcome}`);

describe('homework alone, in one session', () => {
  it('15.1, 15.2 does the drills handed over in their order, as often as their dose says', () => {
    const days = one([GOBLET, HINGE]);
    expect(days.sets).toEqual([
      ...Array<string>(3).fill('goblet-squat as-written held'),
      ...Array<string>(2).fill('bench-hinge as-written held'),
    ]);
    expect(endOf(days)).toMatchObject({ type: 'ended', reason: 'completed' });
    expect(days.cues.some((text) => /we test|check/i.test(text))).toBe(false);
  });

  it('15.2 says the dose, the load and what good looks like, and rests between sets', () => {
    const { cues } = one([BELL]);
    for (const text of [
      'Three sets of six.',
      'Use the load that your coach handed over, and no more.',
      book.drills['bell-hinge']!.good,
    ])
      expect(cues.filter((each) => each === text)).toHaveLength(1);
    const rests = cues.filter((text) => text.startsWith('Rest.'));
    expect(rests).toEqual(Array(2).fill('Rest. We go on in a minute, or when you are ready.'));
    expect(REST_SECONDS.loaded).toBe(60);
  });

  it('15.2 counts a set that was not held in the dose, with its fix or made easier', () => {
    const days = one([BELL, GOBLET], 'limited', 'limited', 'limited');
    expect(days.sets.slice(0, 3)).toEqual([
      'bell-hinge as-written short',
      'bell-hinge as-written short',
      'bell-hinge raised short',
    ]);
    expect(days.cues).toContain('That is enough of the bell hinge for today.');
  });

  it('15.3 never goes up: "harder" is refused, "skip" and "next" leave the area', () => {
    const harder = one([BELL], 'harder');
    expect(harder.cues).toContain('Alone, the bell hinge keeps the load that was agreed.');
    expect(harder.sets).toEqual(Array(3).fill('bell-hinge as-written held'));
    const skipped = one([HINGE, GOBLET], 'skip');
    expect(skipped.cues).toContain('As you say: the hinge is left for another day.');
    expect(skipped.sets).toEqual(Array(3).fill('goblet-squat as-written held'));
    expect(outcomes(skipped)).toEqual(['hinge unfinished', 'squat working']);
  });

  it.each(['not tested', 'next'])(
    '15.3 stepped back from twice lost, "%s" leaves the area, and its rung comes no more that day',
    (said) => {
      const days = one([{ ...GOBLET, load: 'lighter' }, HINGE], 'limited', 'limited', said);
      expect(days.sets.filter((set) => set.startsWith('goblet-squat'))).toEqual(
        Array(2).fill('goblet-squat lighter short'),
      );
      expect(days.cues).toContain('As you say: the squat is left for another day.');
      expect(outcomes(days)).toEqual(['squat unfinished', 'hinge working']);
      expect(brief(days.at(NEXT))).toMatch(/^squat plate-reach-squat 2/);
    },
  );

  it('15.3 goes to what is at or below the rung of the day, and to nothing else', () => {
    const up = one([BELL], 'go to the deadlift');
    expect(up.sets.every((set) => set.startsWith('bell-hinge'))).toBe(true);
    const check = one([BELL], 'go to the unloaded hinge');
    expect(check.cues).toContain('The unloaded hinge is not in your homework for today.');
    const down = one([BELL], 'go back');
    expect(down.sets).toEqual(Array(2).fill('bench-hinge as-written held'));
  });

  it('15.4 never makes a drill heavier again that was handed over easier', () => {
    const days = one([{ ...BELL, load: 'raised' }], 'harder', 'limited');
    expect(new Set(days.sets.map((set) => set.split(' ')[1]))).toEqual(new Set(['raised']));
  });

  it('15.5 asks what an athlete can tell: yes is held, no is short', () => {
    const days = one([HINGE], 'yes', 'no');
    expect(
      days.cues.filter((text) => text === 'Did your shins stay clear of the bench?'),
    ).toHaveLength(2);
    expect(days.sets).toEqual(['bench-hinge as-written held', 'bench-hinge as-written short']);
  });

  it('15.5 takes plain results, and pain that may go on as a set that was not held', () => {
    const days = one([HINGE], 'pain one', 'known');
    expect(days.sets).toEqual(['bench-hinge as-written pain', 'bench-hinge as-written held']);
    expect(days.cues.filter((text) => text.includes('what good looks like'))).toHaveLength(1);
  });

  it('15.6 ends an area on new pain, says whom to show it to, and goes on with the others', () => {
    const days = one([HINGE, GOBLET], 'pain three', 'new');
    expect(days.cues.join(' ')).toContain(
      'No more of the hinge alone. Show this to your coach, or to a licensed professional.',
    );
    expect(outcomes(days)).toEqual(['hinge referred', 'squat working']);
  });

  it('1.6 goes down, with nothing loaded, after known pain above what goes on', () => {
    const days = one([BELL], 'pain four', 'known');
    expect(days.sets[0]).toBe('bell-hinge as-written pain');
    expect(days.sets.slice(1)).toEqual(Array(2).fill('bench-hinge as-written held'));
  });

  it('7.4 ends on a warning sign, 7.3 on a stop and a yes', () => {
    expect(endOf(one([HINGE], 'i feel dizzy'))).toMatchObject({ reason: 'red-flag' });
    expect(endOf(one([HINGE], 'stop', 'yes'))).toMatchObject({ reason: 'stopped' });
  });

  it('15.15 is the own report of the athlete: nothing is ready, and no lift is spoken of', () => {
    const days = one([HINGE, GOBLET]);
    const entries = days.last!.entries;
    expect(outcomes(days)).toEqual(['hinge working', 'squat working']);
    expect(liftsReady(areaStates(book, entries))).toEqual([]);
    expect(outcomeOf(book, entries)).toMatchObject({
      reportedBy: 'athlete',
      liftsReady: [],
      liftsMissing: [],
      homework: [],
      nextDate: '2031-03-03',
    });
    const spoken = days.cues.join(' ');
    expect(spoken).not.toMatch(/\bready to be taught|\btaught\b/);
    expect(spoken).toContain('You told me that every set of the bench hinge was good.');
  });
});

describe('the morning after', () => {
  const second = (task: HandoverTask, now: string, ...replies: string[]) =>
    new Days(handedOver([task])).do(MORNING, [], 'pass').do(now, replies, 'pass');
  const mornings = ({ last }: Days) =>
    last!.entries.flatMap((entry) => (entry.type === 'morning' ? [entry.pain] : []));

  it('15.12 is asked before any work, after the greeting, and kept as a number', () => {
    const days = second(HINGE, NEXT, 'none');
    expect(days.cues[2]).toBe('The hinge, the morning after: any pain, from zero to ten?');
    expect(mornings(days)).toEqual([0]);
    expect(days.sets[0]).toBe('stick-hinge as-written held');
    expect(
      second(HINGE, NEXT, 'no pain').cues.filter((text) => /^Welcome/.test(text)),
    ).toHaveLength(1);
  });

  it('15.12 asks of the time since after more than a day, and not at all the same day', () => {
    const late = second(HINGE, '2031-03-08T09:00:00+01:00', 'zero');
    expect(late.cues[2]).toContain('the morning after and since then');
    expect(mornings(second(HINGE, '2031-03-02T18:00:00+01:00'))).toEqual([]);
  });

  it('15.13 does what was done last after known pain that may go on', () => {
    const days = second(HINGE, NEXT, 'two', 'known');
    expect(days.cues.join(' ')).toContain('so today we do the bench hinge as before');
    expect(days.sets[0]).toBe('bench-hinge as-written held');
  });

  it('15.13 goes below what was done last, unloaded, after more', () => {
    const days = second(BELL, NEXT, 'pain four', 'known');
    expect(days.cues.join(' ')).toContain('so today we do the bench hinge, with nothing loaded');
    expect(days.sets).toEqual(Array(2).fill('bench-hinge as-written held'));
  });

  it.each([
    ['new', ['one', 'new']],
    ['above the line', ['eight']],
  ])('15.13 does nothing after pain that is %s, and refers', (_, replies) => {
    const days = second(HINGE, NEXT, ...replies);
    expect(days.sets).toEqual([]);
    expect(outcomes(days)).toEqual(['hinge referred']);
  });

  it('15.14 does nothing of an area whose morning stays unanswered', () => {
    const days = new Days(handedOver([HINGE])).do(MORNING, [], 'pass').do(NEXT, ['', '', '']);
    expect(mornings(days)).toEqual(['unanswered']);
    expect(days.sets).toEqual([]);
    expect(outcomes(days)).toEqual(['hinge unfinished']);
  });

  it('15.12 is taken back by an undo, and asked again', () => {
    const days = second(HINGE, NEXT, 'none', 'undo', 'two', 'known');
    expect(mornings(days)).toEqual([0, 2]);
    expect(days.sets[0]).toBe('bench-hinge as-written held');
  });
});

describe('homework in Spanish', () => {
  it('15.5, 15.12 goes the same way', () => {
    const days = new Days(handedOver([HINGE], { language: 'es' }), 'es')
      .do(MORNING, ['sí', 'sí'])
      .do(NEXT, ['cero', 'sí', 'no', 'sí']);
    expect(days.cues).toContain(
      'Respecto a la bisagra de cadera, a la mañana siguiente: ¿algún dolor, de cero a diez?',
    );
    expect(days.sets.map((set) => set.split(' ')[2])).toEqual(['held', 'short', 'held']);
  });
});

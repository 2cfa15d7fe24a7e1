import { describe, expect, it } from 'vitest';
import type { Handover, HandoverTask } from '../../../src/domain/handover/handover';
import { nextTasks } from '../../../src/domain/handover/progress';
import { leftSentence, taskSentence } from '../../../src/domain/handover/progressWords';
import type { Entry } from '../../../src/domain/log';
import { book, brief, folded, handedOver, type Answer } from './days';

const HINGE: HandoverTask = {
  ...{ area: 'hinge', drill: 'bench-hinge', rung: 1, load: 'as-written' },
};
const BELL: HandoverTask = {
  ...{ area: 'hinge', drill: 'bell-hinge', rung: 2, load: 'as-written' },
};
const GOBLET: HandoverTask = {
  ...{ area: 'squat', drill: 'goblet-squat', rung: 3, load: 'as-written' },
};
const HELD: Answer = { say: 'held' };
const SHORT: Answer = { say: 'short' };
const known = (pain: number): Answer => ({ pain, kind: 'known' });
const NEW: Answer = { pain: 1, kind: 'new' };

/** Days of March 2031 at nine, or the moments given, each with its answers; then the day after. */
function after(
  handover: Handover,
  days: { on: string; said: Answer[] }[],
  now: string,
): ReturnType<typeof nextTasks> {
  const logs: Entry[][] = [];
  for (const { on, said } of days) logs.push(folded(nextTasks(book, handover, logs, on), on, said));
  return nextTasks(book, handover, logs, now);
}
const on = (day: number, said: Answer[] = [], hour = '09') => ({
  on: `2031-03-${String(day).padStart(2, '0')}T${hour}:00:00+01:00`,
  said,
});
const at = (day: number, hour = '09') => on(day, [], hour).on;

describe('what was handed over, day by day', () => {
  it('15.1 begins as it was handed over', () => {
    expect(brief(after(handedOver([HINGE]), [], at(2)))).toBe(
      'hinge bench-hinge 1 as-written handed-over',
    );
  });

  it('15.7 goes one rung up on a later day after every set held, and never two', () => {
    const handover = handedOver([HINGE], { allowedAlone: ['bell-hinge'] });
    expect(brief(after(handover, [on(2)], at(3)))).toBe('hinge bell-hinge 2 as-written up');
    // However many days go by.
    expect(brief(after(handover, [on(2)], at(20)))).toBe('hinge bell-hinge 2 as-written up');
  });

  it('15.7 stays where the next rung may not be done, and says whom it waits for', () => {
    const day = after(handedOver([BELL]), [on(2)], at(3));
    expect(brief(day)).toBe('hinge bell-hinge 2 as-written waits');
    expect(taskSentence(book, day.tasks[0]!)).toContain('your coach');
  });

  it('15.7 does not go up after pain that may go on, though a result was held with it', () => {
    expect(brief(after(handedOver([HINGE]), [on(2, [HELD, known(1)])], at(3)))).toBe(
      'hinge bench-hinge 1 as-written same',
    );
  });

  it('15.4 goes up without load under a drill without load, unless the coach allowed it', () => {
    expect(brief(after(handedOver([HINGE]), [on(2)], at(3)))).toBe(
      'hinge stick-hinge 2 as-written up',
    );
    const lighter = { ...HINGE, drill: 'bell-hinge', rung: 2, load: 'raised' as const };
    const handover = handedOver([lighter], { allowedAlone: ['romanian-deadlift'] });
    expect(brief(after(handover, [on(2)], at(3)))).toBe('hinge romanian-deadlift 3 lighter up');
  });

  it('15.8 does what was held made easier as it was handed over first', () => {
    const days = [on(2, [HELD, SHORT, SHORT])];
    const handover = handedOver([BELL], { allowedAlone: ['romanian-deadlift'] });
    expect(brief(after(handover, days, at(3)))).toBe('hinge bell-hinge 2 raised easier');
    days.push(on(3, [known(0), HELD, HELD, HELD]));
    expect(brief(after(handover, days, at(4)))).toBe('hinge bell-hinge 2 as-written full-load');
  });

  it('15.9 stays after one failed set, and goes down where it was made easier in vain', () => {
    const handover = handedOver([BELL]);
    expect(brief(after(handover, [on(2, [HELD, HELD, SHORT])], at(3)))).toBe(
      'hinge bell-hinge 2 as-written same',
    );
    expect(brief(after(handover, [on(2, [SHORT, SHORT, SHORT])], at(3)))).toBe(
      'hinge bench-hinge 1 as-written back',
    );
  });

  it('15.9 does not go up again alone to a rung that was stepped back from twice', () => {
    const fail = [SHORT, SHORT, SHORT];
    const days = [on(2, fail), on(3), on(4, [known(0), ...fail]), on(5)];
    expect(brief(after(handedOver([BELL]), days.slice(0, 2), at(4)))).toContain('bell-hinge 2');
    expect(brief(after(handedOver([BELL]), days, at(6)))).toBe(
      'hinge bench-hinge 1 as-written waits',
    );
  });

  it('15.10 repeats the rung the second time on one day, by the clock on the wall', () => {
    const handover = handedOver([HINGE]);
    expect(brief(after(handover, [on(2, [], '06')], at(2, '23')))).toBe(
      'hinge bench-hinge 1 as-written same-day',
    );
    // Twenty hours later and one more zone to the west it is still the second of March there.
    const west = '2031-03-02T23:30:00-09:00';
    expect(brief(after(handover, [on(2, [], '06')], west))).toContain('same-day');
    // Two hours later, past midnight, it is another day.
    const days = [{ on: '2031-03-02T23:00:00+01:00', said: [] }];
    expect(brief(after(handover, days, '2031-03-03T01:00:00+01:00'))).toContain('stick-hinge');
  });

  it('15.10 counts a bad second session of a day', () => {
    expect(brief(after(handedOver([HINGE]), [on(2), on(2, [HELD, SHORT], '18')], at(3)))).toBe(
      'hinge bench-hinge 1 as-written same',
    );
  });

  it('15.6 does no more of an area after new or sharp pain, and says to whom to show it', () => {
    const day = after(handedOver([HINGE, GOBLET]), [on(2, [NEW])], at(3));
    expect(brief(day)).toContain('hinge left referred');
    expect(leftSentence(book, day.left[0]!)).toBe(
      'Hinge: no more of it alone. Show this to a coach or a licensed professional.',
    );
  });

  it('15.6 takes pain whose kind was not said before the end as new', () => {
    const handover = handedOver([HINGE]);
    const log = folded(nextTasks(book, handover, [], at(2)), at(2), [known(2)]);
    const cut = log.slice(0, log.findIndex(({ type }) => type === 'finding') + 1);
    expect(brief(nextTasks(book, handover, [cut], at(3)))).toBe('hinge left referred');
  });

  it('15.11 goes below a rung that hurt more than goes on, with nothing loaded, and stays there', () => {
    const days = [on(2, [known(4)])];
    expect(brief(after(handedOver([BELL]), days, at(3)))).toBe(
      'hinge bench-hinge 1 as-written back',
    );
    days.push(on(3), on(4), on(5));
    expect(brief(after(handedOver([BELL]), days, at(6)))).toBe(
      'hinge bench-hinge 1 as-written waits',
    );
  });

  it('15.11 loads neither squat nor hinge after pain above the line in one of them', () => {
    const day = after(handedOver([BELL, GOBLET]), [on(2, [known(7)])], at(3));
    expect(day.left).toContainEqual({ area: 'hinge', why: 'referred' });
    expect(brief(day)).toContain('squat cable-squat 1');
  });

  it('15.11 does nothing any more after a warning sign, in any area', () => {
    expect(brief(after(handedOver([HINGE, GOBLET]), [on(2, ['flag'])], at(9)))).toBe(
      'hinge left warning-sign, squat left warning-sign',
    );
  });

  it('15.11 never does what was not allowed alone, and what is not there', () => {
    const front = { ...GOBLET, drill: 'front-squat', rung: 4 };
    expect(brief(after(handedOver([front]), [], at(2)))).toBe(
      'squat stick-front-squat 4 as-written instead',
    );
    const bare = handedOver([front], { missing: ['stick'] });
    expect(brief(after(bare, [], at(2)))).toBe('squat goblet-squat 3 as-written instead');
    const nothing = handedOver([HINGE], { missing: ['bench'] });
    expect(brief(after(nothing, [], at(2)))).toContain('wall-hinge 1');
  });

  it('15.12 asks of the morning after on a later day, once, and of the time since', () => {
    const handover = handedOver([HINGE]);
    const before = { drill: 'bench-hinge', rung: 1, load: 'as-written' };
    expect(after(handover, [on(2)], at(2, '20')).tasks[0]?.before).toBeNull();
    expect(after(handover, [on(2)], at(3)).tasks[0]?.before).toEqual({ ...before, daysAgo: 1 });
    expect(after(handover, [on(2)], at(9)).tasks[0]?.before).toEqual({ ...before, daysAgo: 7 });
    // It was answered, and then nothing was done: not asked again that day.
    const answered = [on(2), on(3, [known(0), 'stop'])];
    expect(after(handover, answered, at(3, '20')).tasks[0]?.before).toBeNull();
  });

  it('15.14 asks again where the morning stayed unanswered, and did nothing meanwhile', () => {
    const silent: Answer = { pain: 'unanswered', kind: 'unanswered' };
    const day = after(handedOver([HINGE]), [on(2), on(3, [silent])], at(3, '20'));
    expect(day.tasks[0]?.before).not.toBeNull();
    expect(brief(day)).toBe('hinge stick-hinge 2 as-written up');
  });

  it('15.13 the morning after stops an area or brings it down for good', () => {
    const handover = handedOver([BELL]);
    const next = (morning: Answer) => brief(after(handover, [on(2), on(3, [morning])], at(4)));
    expect(next(NEW)).toBe('hinge left referred');
    expect(next(known(6))).toBe('hinge left referred');
    expect(next(known(4))).toContain('bench-hinge 1');
  });

  it('counts logs of another handover, and of anything else, for nothing', () => {
    const handover = handedOver([HINGE]);
    const other = { ...handover, id: 'ffffffffffffffff' };
    const log = folded(nextTasks(book, other, [], at(2)), at(2), []);
    expect(brief(nextTasks(book, handover, [log, []], at(3)))).toContain('handed-over');
  });

  it('does not take logs at their word that went higher than the days before allow', () => {
    const handover = handedOver([HINGE]);
    const day = nextTasks(book, handover, [], at(2));
    const high = { ...day.tasks[0]!, drill: 'deadlift', rung: 4, may: ['deadlift'] };
    const log = folded({ ...day, tasks: [high] }, at(2), []);
    expect(brief(nextTasks(book, handover, [log], at(3)))).toBe(
      'hinge bench-hinge 1 as-written same',
    );
  });

  it('names the drill that no ladder has', () => {
    expect(() => nextTasks(book, handedOver([{ ...HINGE, drill: 'no-drill' }]), [], at(2))).toThrow(
      'The ladder of the hinge has no drill "no-drill".',
    );
  });
});

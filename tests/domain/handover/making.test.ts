import { describe, expect, it } from 'vitest';
import { mustFitBook } from '../../../src/domain/handover/checking';
import { handoverOf, toBeAllowed } from '../../../src/domain/handover/making';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';
import { outcomeOf } from '../../../src/domain/reporting/report';
import type { DrillId } from '../../../src/domain/script';
import { book } from '../../main/homework/examples';
import { Telling } from '../deciding/logging';

const MADE = {
  ...{ id: '00f1a2b3c4d5e6f7', language: 'en', madeAt: '2031-03-20T10:00:00.000+01:00' },
  ...{ missing: ['hanging-bar'], settings: { ...DEFAULT_SETTINGS, painGoesOnUpTo: 1 } },
};

/** Homework of a session whose hinge is worked at, on that rung. */
function workingAt(rung: number) {
  const told = new Telling('hinge', 'hands-on', {}, book);
  told.lost('back-rounded');
  for (let at = 1; at <= rung; at += 1) told.held(2);
  while (told.step.do === 'set') told.coach('next');
  while (told.step.do === 'check') told.lost('back-rounded');
  return outcomeOf(book, told.entries).homework;
}

describe('homework is handed over', () => {
  it('with its drill, rung and load, the bands of pain and what is missing, and nothing else', () => {
    const handover = handoverOf(workingAt(2), [], MADE);
    expect(handover).toEqual({
      ...{ id: MADE.id, language: 'en', madeAt: MADE.madeAt, missing: ['hanging-bar'] },
      tasks: [{ area: 'hinge', drill: 'bell-hinge', rung: 2, load: 'as-written' }],
      ...{ allowedAlone: [], painGoesOnUpTo: 1, painRefersAbove: 5 },
    });
    expect(() => mustFitBook(book, handover!)).not.toThrow();
  });

  it('only where the coach says yes to a drill that needs it, and then that is said', () => {
    const homework = workingAt(3);
    const [drill = ''] = toBeAllowed(homework);
    expect(drill).toBe('romanian-deadlift');
    const over = (allowed: DrillId[]) => handoverOf(homework, allowed, MADE);
    expect(over([])).toBeNull();
    expect(over(['bench-hinge'])).toBeNull();
    expect(over([drill, 'front-squat'])).toMatchObject({
      tasks: [{ drill, rung: 3 }],
      allowedAlone: [drill],
    });
    expect(() => mustFitBook(book, over([drill])!)).not.toThrow();
  });

  it('not where there is none', () => {
    expect(handoverOf([], [], MADE)).toBeNull();
  });
});

import type { HomeworkStage, KeptHomework } from '../../src/screens/homework/state';
import type { SeatState } from '../../src/screens/seat';
import type { CueBook } from '../../src/domain/script';
import { BOOK as SMALL } from './book';
import { STATE } from './fakeSeat';
import { PEOPLE_STATES } from './peopleStates';

/** With the sentences that a dose is written in. */
export const BOOK: CueBook = {
  ...SMALL,
  lines: {
    ...SMALL.lines,
    'shown.task-handed-over': 'As your coach handed it over.',
    'shown.left-pain': '{area}: pain forbids what is left.',
    ...{ 'shown.sets': '{sets} sets', 'shown.dose-reps': '{sets} of {reps}' },
  },
};

const HANDOVER: KeptHomework['handover'] = {
  ...{ id: '00f1a2b3c4d5e6f7', language: 'en', madeAt: '2031-03-07T10:00:00.000+01:00' },
  tasks: [{ area: 'hinge', drill: 'bell-hinge', rung: 2, load: 'as-written' }],
  ...{ missing: [], allowedAlone: [], painGoesOnUpTo: 2, painRefersAbove: 5 },
};
export const HOMEWORK: KeptHomework = {
  handover: HANDOVER,
  done: [],
  today: {
    handover: HANDOVER,
    tasks: [{ ...HANDOVER.tasks[0]!, why: 'handed-over', may: ['bell-hinge'], before: null }],
    left: [],
  },
};
export const DONE_ONCE: KeptHomework = {
  ...HOMEWORK,
  done: [{ session: 's', startedAt: '2031-03-08T08:00:00+01:00' }],
};

const people = Object.values(PEOPLE_STATES).find((state) => state.people.all.length > 1)!.people;

const at = (stage: HomeworkStage): SeatState => ({
  ...STATE,
  where: 'homework',
  book: BOOK,
  people,
  homework: { stage, kept: [], waits: false },
});

const CAME = { session: 's', startedAt: '2031-03-08T08:00:00+01:00', isHere: false };

/** The homework's screen as it can stand. */
export const HOMEWORK_STATES = {
  'homework-opening': at({ at: 'opening' }),
  'homework-reading': at({ at: 'reading' }),
  'homework-refused': at({ at: 'refused', say: 'This homework was cut off. Ask your coach.' }),
  'homework-other-language': at({ at: 'otherLanguage', language: 'es' }),
  'homework-offered': at({ at: 'homework', homework: HOMEWORK, isKept: false }),
  'homework-kept': at({ at: 'homework', homework: DONE_ONCE, isKept: true }),
  'homework-done': at({ at: 'done', homework: DONE_ONCE, end: null }),
  'homework-report': at({
    ...{ at: 'report', person: null },
    sessions: [{ ...CAME, areas: ['hinge'] }],
  }),
  'homework-known-report': at({
    ...{ at: 'report', person: people.all[0]!.person.id },
    sessions: [{ ...CAME, areas: ['hinge', 'squat'] }],
  }),
  'homework-joined': at({ at: 'joined', added: 1, person: people.all[0]!.person.id }),
} satisfies Record<string, SeatState>;

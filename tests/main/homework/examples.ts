import { loadBook } from '../../../src/cues/fromFolder';
import type { Handover } from '../../../src/domain/handover/handover';
import type { DayTask } from '../../../src/domain/handover/progressDay';
import type { HomeworkReport } from '../../../src/domain/handover/returning';
import { DEFAULT_SETTINGS, type Entry } from '../../../src/domain/log';

export const book = loadBook('scripts-cues', 'en');

/** Where the page is, as its links begin. */
export const ADDRESS = 'https://gym.example/sayso/';
/** Milliseconds since 1970. */
export const NOW = Date.UTC(2031, 2, 20, 9, 0, 0);
export const MADE_AT = '2031-03-20T10:00:00.000+01:00';

/** As large as homework gets: a drill in each area, one that is allowed, things that are missing. */
export const HANDOVER: Handover = {
  id: '00f1a2b3c4d5e6f7',
  language: 'en',
  madeAt: MADE_AT,
  tasks: [
    { area: 'overhead', drill: 'half-kneeling-press', rung: 4, load: 'as-written' },
    { area: 'squat', drill: 'front-squat', rung: 4, load: 'as-written' },
    { area: 'hinge', drill: 'bell-hinge', rung: 2, load: 'as-written' },
  ],
  missing: ['hanging-bar'],
  allowedAlone: ['front-squat'],
  painGoesOnUpTo: 2,
  painRefersAbove: 5,
};

const SESSION = 'aa11bb22cc33dd44';
const source = { by: 'hand', text: '', confidence: 1 } as const;
const TASKS = HANDOVER.tasks.map((task): DayTask => ({
  ...task,
  why: 'handed-over',
  may: [task.drill],
  before: null,
}));

const set = (
  number: number,
  atSeconds: number,
  result: 'held' | 'lost',
  session: string,
): Entry => ({
  ...{ type: 'finding', id: `${session}:phone:${number}`, atSeconds, result },
  ...{ prompt: 'set/bell-hinge', check: null, drill: 'bell-hinge', load: 'as-written' },
  ...{ side: null, faults: [], angleDegrees: null, tool: null, pain: null, source },
});

/** A session of that homework: a set held, one lost. */
export const entriesOf = (session = SESSION, handover = HANDOVER): Entry[] => [
  {
    ...{ type: 'started', id: `${session}:phone:0`, atSeconds: 0, routine: 'homework' },
    ...{ language: 'en', way: 'alone', startedAt: '2031-03-20T09:30:00.000+01:00' },
    ...{ settings: DEFAULT_SETTINGS, homework: { handover, tasks: TASKS, left: [] } },
  },
  set(1, 60, 'held', session),
  set(2, 120, 'lost', session),
  { type: 'ended', id: `${session}:phone:3`, atSeconds: 130, reason: 'completed' },
];

export const REPORT: HomeworkReport = {
  handover: HANDOVER.id,
  sessions: [{ session: SESSION, entries: entriesOf() }],
};

import type { OpenArea } from '../../src/domain/people/openFor';
import type { Person } from '../../src/domain/people/person';
import type { Moment } from '../../src/domain/reporting/moments';
import type { SessionOutcomes } from '../../src/ports';
import type { VisitState } from '../../src/screens/finished/state';
import type { PeopleState, PersonKnown } from '../../src/screens/people/state';
import type { SeatState, UnfinishedSession } from '../../src/screens/seat';
import { STATE } from './fakeSeat';
import { STATES } from './states';

/** Nobody of these lives. */
const person = (id: string, name: string, more: Partial<Person> = {}): Person => ({
  ...{ id, name, squad: null, birthYear: null, sex: null, statureMillimetres: null },
  ...{ kneeMillimetres: null, angleTool: null, mindText: '', guardianAgreedOn: null },
  isInvented: false,
  ...more,
});

const open = (more: Partial<OpenArea>): OpenArea => ({
  ...{ outcome: 'ready', rung: null, session: 's2', on: '2031-03-01', waits: false },
  ...{ dueOn: '2031-03-29', isDue: false },
  ...more,
});

const visit = (session: string, startedAt: string, more: Partial<SessionOutcomes> = {}) => ({
  head: { session, routine: 'hinge', startedAt, ended: 'completed' as const, person: 'marn' },
  areas: [{ area: 'hinge' as const, outcome: 'working' as const, rung: 1 }],
  newPainAt: [],
  isWarned: false,
  ...more,
});

export const MARN: PersonKnown = {
  person: person('marn', 'Quib Marn', {
    squad: 'Harbour juniors',
    birthYear: 2014,
    statureMillimetres: 1620,
    kneeMillimetres: 455,
    angleTool: 'inclinometer',
    mindText: 'Left shoulder stiff in the morning.',
  }),
  open: {
    overhead: open({}),
    squat: open({ outcome: 'referred', waits: true, dueOn: null }),
    hinge: open({ outcome: 'working', rung: 1, dueOn: '2031-03-08', isDue: true }),
  },
  visits: [
    visit('s2', '2031-03-01T09:00:00+01:00'),
    visit('s1', '2031-02-20T18:30:00+01:00', {
      areas: [{ area: 'hinge', outcome: 'unfinished', rung: null }],
    }),
  ],
};

const cutOff = (
  session: string,
  startedAt: string,
  person: string | null = 'marn',
  open: UnfinishedSession['open'] = null,
): UnfinishedSession => ({
  head: { session, routine: 'hinge', startedAt, ended: null, person },
  ...{ open, trouble: null },
});

export const TOSK: PersonKnown = {
  person: person('tosk', 'Élodie Tosk', { isInvented: true }),
  open: { overhead: null, squat: null, hinge: null },
  visits: [],
};

export const MOMENTS: Moment[] = [
  {
    ...{ id: 'm1', atSeconds: 0, type: 'decided', area: 'hinge', to: 'hinge-unloaded' },
    ...{ because: 'We begin with the unloaded hinge.', rule: '10.1', by: 'rules' },
  },
  {
    ...{ id: 'm2', atSeconds: 67.4, type: 'heard', prompt: 'check/hinge-unloaded' },
    ...{ text: 'knees came forward', verdict: 'accept', understood: 'knees forward' },
    isTakenBack: true,
  },
  { id: 'm3', atSeconds: 70, type: 'deed', deed: 'undone', text: 'scratch that' },
  {
    ...{ id: 'm4', atSeconds: 81, type: 'heard', prompt: 'check/hinge-unloaded' },
    ...{ text: 'what a day', verdict: 'ignore', understood: null, isTakenBack: false },
  },
  {
    ...{ id: 'm5', atSeconds: 187, type: 'heard', prompt: 'check/hinge-unloaded' },
    ...{ text: '', verdict: 'accept', understood: 'pass', isTakenBack: false },
  },
  {
    ...{ id: 'm6', atSeconds: 187, type: 'decided', area: 'hinge', to: 'bench-hinge' },
    ...{ because: 'You decide: on to the bench hinge.', rule: '9.3', by: 'coach' },
  },
];

export const VISIT: VisitState = {
  state: 'here',
  head: MARN.visits[0]!.head,
  end: STATES['finished-working']!.view.end!,
  moments: MOMENTS,
  since: {
    before: MARN.visits[1]!.head,
    told: {
      areas: [
        {
          ...{ area: 'hinge', before: 'unfinished', now: 'working' },
          ...{ rungBefore: null, rungNow: 1 },
        },
      ],
      checks: [
        {
          ...{ area: 'hinge', check: 'hinge-unloaded', side: null, before: 'failed', now: 'held' },
          ...{ change: null, told: null },
        },
      ],
    },
  },
};

const people = (change: Partial<PeopleState>): PeopleState => ({ ...STATE.people, ...change });
const all = [TOSK, MARN];

export const PEOPLE_STATES: Record<string, SeatState> = {
  'people-none': { ...STATE, where: 'people' },
  'people-loading': { ...STATE, where: 'people', people: people({ state: 'loading' }) },
  'people-some': { ...STATE, where: 'people', people: people({ all }) },
  'people-unfinished': {
    ...STATE,
    where: 'people',
    people: people({ all }),
    unfinished: [cutOff('s2', '2031-03-01T09:00:00+01:00')],
  },
  'people-unfinished-many': {
    ...STATE,
    where: 'people',
    people: people({ all }),
    unfinished: [
      cutOff('s9', '2031-03-08T10:40:00+01:00', 'tosk', {
        ...{ type: 'step', prompt: 'set/bell-hinge', side: 'left', set: 1, of: 2, rung: 2 },
      }),
      cutOff('s8', '2031-03-08T10:15:00+01:00'),
      cutOff('s7', '2031-03-08T09:50:00+01:00', null),
      cutOff('s6', '2031-02-01T09:00:00+01:00', 'marn'),
    ],
  },
  'people-trouble': {
    ...STATE,
    where: 'people',
    people: people({ trouble: 'This browser does not let the page keep a record.' }),
  },
  'people-squad': {
    ...STATE,
    where: 'people',
    people: people({ all, only: { squad: 'Harbour juniors' } }),
  },
  import: { ...STATE, where: 'import', people: people({ all }) },
  athlete: { ...STATE, where: 'athlete', people: people({ all, chosen: 'marn' }) },
  'athlete-new': { ...STATE, where: 'athlete', people: people({ all, chosen: 'tosk' }) },
  'athlete-gone': { ...STATE, where: 'athlete', people: people({ all, chosen: 'nobody' }) },
  visit: { ...STATE, where: 'visit', people: people({ all, chosen: 'marn' }), visit: VISIT },
  'visit-trouble': {
    ...STATE,
    where: 'visit',
    people: people({ all, chosen: 'marn' }),
    visit: { state: 'trouble', trouble: 'This visit cannot be read here.' },
  },
  'gate-named': { ...STATE, people: people({ all, chosen: 'marn' }) },
  'finished-named': {
    ...STATES['finished-working']!,
    people: people({ all, chosen: 'marn' }),
    visit: VISIT,
  },
};

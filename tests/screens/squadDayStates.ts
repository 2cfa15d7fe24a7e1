import type { SquadDay } from '../../src/domain/people/squadDay';
import type { SeatState } from '../../src/screens/seat';
import type { Sign, SquadDayState } from '../../src/screens/squadDay/state';
import { someone } from '../domain/people/someone';
import { loadBook } from '../../src/cues/fromFolder';
import { STATE, viewAfter } from './fakeSeat';
import { MARN, TOSK } from './peopleStates';
import { STATES } from './states';

/** Invented as the others are. */
export const ASH = {
  person: someone('Ash Vennel', { id: 'ash', squad: 'Harbour juniors', birthYear: 1999 }),
  open: { overhead: null, squat: null, hinge: null },
  visits: [],
};
const turn = (person: string, session: string | null = null) => ({ person, session });
const people = { ...STATE.people, all: [ASH, TOSK, MARN] };

export const DAY: SquadDay = {
  now: null,
  waiting: [turn('tosk')],
  later: [turn('ash', 's9')],
  seen: [turn('marn', 's2')],
};
const NOBODY: SquadDay = { now: null, waiting: [], later: [], seen: [] };

export const squadDay = (change: Partial<SquadDayState>): SquadDayState => ({
  ...{ stage: 'between', day: DAY, asks: 'ready', trouble: null },
  ...change,
});

const sign = (change: Partial<Sign>): Sign => ({
  ...{ id: 'n1', person: 'marn', session: 's2', flag: 'chest-pain', text: 'chest pain' },
  ...{ writtenAt: '2031-03-08T10:42:00+01:00', hadTurn: true, isNoted: true },
  ...change,
});

const at = (change: Partial<SquadDayState>): SeatState => ({
  ...STATE,
  where: 'squadDay',
  people,
  squadDay: squadDay(change),
  view: viewAfter([{ type: 'cue', text: 'Say ready.', seconds: 1 }]),
});

export const SQUAD_DAY_STATES: Record<string, SeatState> = {
  'squad-day-choosing': at({ stage: 'choosing', day: NOBODY }),
  'squad-day-between': at({}),
  'squad-day-end': at({ asks: 'end' }),
  'squad-day-help': at({ asks: 'help' }),
  'squad-day-sign': at({ asks: 'sign', signs: [sign({})] }),
  'squad-day-sign-kept': at({
    asks: 'sign',
    signs: [sign({ isNoted: false })],
    trouble: 'Not yet.',
  }),
  'squad-day-over-sign': at({ stage: 'over', signs: [sign({ person: 'tosk', hadTurn: false })] }),
  'squad-day-deaf': {
    ...at({ trouble: 'The session that was left open could not be read.' }),
    microphone: { state: 'denied', level: 0, hearsWell: 'unknown' },
  },
  'squad-day-typed': {
    ...at({}),
    book: loadBook('scripts-cues', 'es'),
    language: { chosen: 'es', all: ['en', 'es'], isHeard: false, notFetched: null },
  },
  'squad-day-over': at({ stage: 'over' }),
  'squad-day-kept': { ...at({ stage: 'kept' }), where: 'people' },
  'squad-day-dropped': { ...at({ stage: 'dropped', day: NOBODY }), where: 'people' },
  'squad-day-running': {
    ...STATES['run-set-open']!,
    people: { ...people, chosen: 'tosk' },
    squadDay: squadDay({
      stage: 'running',
      day: { ...DAY, now: turn('tosk', 's10'), waiting: [] },
    }),
  },
};

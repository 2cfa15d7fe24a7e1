import type { Area } from '../../src/domain/areas';
import type { Fault } from '../../src/domain/faults';
import type { CheckScript, CueBook, DrillScript } from '../../src/domain/script';

/** A small book: what the screens read of the real one, and no more. */
const check = (id: string, area: Area, name: string, more: Partial<CheckScript>): CheckScript => ({
  id,
  area,
  name,
  sided: false,
  loaded: false,
  needsCoach: true,
  equipment: [],
  setUp: [],
  setUpAgain: [],
  settleSeconds: 3,
  steps: [],
  ask: 'How did it look?',
  faults: [],
  caution: '',
  ...more,
});

const drill = (id: string, area: Area, name: string, more: Partial<DrillScript>): DrillScript => ({
  id,
  area,
  name,
  sided: false,
  loaded: false,
  equipment: [],
  instead: [],
  dose: { sets: 2, reps: 6 },
  setUp: [],
  setUpAgain: [],
  settleSeconds: 5,
  steps: [],
  ask: 'What was that set like?',
  good: '',
  fixes: [],
  easier: null,
  heavier: null,
  loadGuidance: '',
  caution: 'Set the bar down the moment anything hurts.',
  ...more,
});

const fault = (id: string, areas: Area[], kind: Fault['kind'] = 'position'): Fault => ({
  id,
  kind,
  areas,
  readback: id.replace('-', ' '),
});

const byId = <T extends { id: string }>(items: T[]): Record<string, T> =>
  Object.fromEntries(items.map((item) => [item.id, item]));

const HINGE_FAULTS = [
  'back-rounded',
  'back-arched',
  'shoulders-forward',
  'shoulders-first',
  'hips-first',
  'knees-forward',
  'knees-locked',
  'shins-tilted',
  'bar-away',
  'weight-forward',
  'toes-up',
];

export const BOOK: CueBook = {
  language: 'en',
  checks: byId([
    check('hinge-unloaded', 'hinge', 'the unloaded hinge', {
      faults: HINGE_FAULTS.filter((id) => id !== 'bar-away' && id !== 'hips-first'),
      caution: 'Not with back pain that has not been looked at by a licensed professional.',
    }),
    check('hinge-bar', 'hinge', 'the hinge with the bar', { faults: HINGE_FAULTS, loaded: true }),
    check('overhead-passive', 'overhead', 'the lying arm lift', {
      sided: true,
      faults: ['ribs-flared', 'arms-short'],
    }),
  ]),
  equipment: {},
  drills: byId([
    drill('bench-hinge', 'hinge', 'the bench hinge', { selfCheck: 'Did your back stay flat?' }),
    drill('bell-hinge', 'hinge', 'the bell hinge', { loaded: true }),
    drill('romanian-deadlift', 'hinge', 'the Romanian deadlift', { loaded: true }),
    drill('deadlift', 'hinge', 'the deadlift', { loaded: true }),
    drill('half-kneeling-press', 'overhead', 'the half-kneeling press', { sided: true }),
  ]),
  ladders: {
    hinge: {
      area: 'hinge',
      rungs: ['bench-hinge', 'bell-hinge', 'romanian-deadlift', 'deadlift'].map((id) => ({
        drill: id,
      })),
      entry: [],
    },
  },
  routines: {},
  warmUps: {},
  faults: byId([
    ...HINGE_FAULTS.map((id) => fault(id, ['hinge'])),
    fault('ribs-flared', ['overhead']),
    fault('arms-short', ['overhead'], 'range'),
  ]),
  vocabulary: { language: 'en' } as CueBook['vocabulary'],
  lines: { 'lift.pulls': 'pulls and deadlifts' },
};

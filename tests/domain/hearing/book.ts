import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { vocabularySchema } from '../../../src/cues/schemas/vocabulary';
import type { Area } from '../../../src/domain/areas';
import { faultsOf } from '../../../src/domain/hearing/vocabulary';
import type { CheckScript, CueBook, DrillScript } from '../../../src/domain/script';

const root = new URL('../../../', import.meta.url);

const script = {
  sided: false,
  loaded: false,
  equipment: [],
  setUp: [],
  setUpAgain: [],
  settleSeconds: 5,
  steps: [],
  ask: '',
  caution: '',
};

const check = (
  area: Area,
  id: string,
  name: string,
  faults: string[],
  sided = false,
): CheckScript => ({
  ...script,
  id,
  area,
  name,
  faults,
  sided,
  needsCoach: true,
});

const drill = (area: Area, id: string, name: string, sided = false): DrillScript => ({
  ...script,
  id,
  area,
  name,
  sided,
  instead: [],
  dose: { sets: 2, reps: 6 },
  good: '',
  fixes: [],
  easier: null,
  heavier: null,
  loadGuidance: '',
});

const squat = [
  ...['heels-up', 'weight-forward', 'weight-back', 'weight-shifted', 'knees-caved'],
  ...['back-rounded', 'back-arched', 'chest-dropped', 'elbows-dropped', 'depth-short'],
];
const hinge = [
  ...['knees-forward', 'knees-locked', 'shins-tilted', 'back-rounded', 'back-arched'],
  ...[
    'shoulders-forward',
    'shoulders-first',
    'hips-first',
    'bar-away',
    'weight-forward',
    'toes-up',
  ],
];
const standing = ['ribs-flared', 'back-arched', 'hips-forward', 'elbows-bent', 'arms-short'];

const checks = [
  check('overhead', 'overhead-passive', 'the passive overhead check', ['ribs-flared'], true),
  check('overhead', 'overhead-active-lying', 'the lying overhead check', [
    ...['pressure-lost', 'ribs-flared', 'elbows-bent', 'arms-short'],
  ]),
  check('overhead', 'overhead-active-standing', 'the standing overhead check', standing),
  check(
    'squat',
    'squat-bodyweight',
    'the bodyweight squat',
    squat.filter((id) => id !== 'elbows-dropped'),
  ),
  check('squat', 'squat-front-rack', 'the front rack squat', squat),
  check('hinge', 'hinge-unloaded', 'the unloaded hinge', hinge),
  check('hinge', 'hinge-bar', 'the hinge with the bar', hinge),
];
const drills = [
  drill('overhead', 'supported-hang', 'the supported hang'),
  drill('overhead', 'lying-pullover', 'the lying pullover'),
  drill('overhead', 'hands-knees-walkout', 'the hands and knees walkout'),
  drill('overhead', 'half-kneeling-press', 'the half-kneeling press', true),
  drill('overhead', 'standing-press', 'the standing press'),
  drill('squat', 'cable-squat', 'the cable squat'),
  drill('squat', 'plate-reach-squat', 'the plate-reach squat'),
  drill('squat', 'goblet-squat', 'the goblet squat'),
  drill('squat', 'front-squat', 'the front squat'),
  drill('hinge', 'bench-hinge', 'the bench hinge'),
  drill('hinge', 'bell-hinge', 'the bell hinge'),
  drill('hinge', 'romanian-deadlift', 'the Romanian deadlift'),
  drill('hinge', 'deadlift', 'the deadlift'),
];

const byId = <T extends { id: string }>(all: T[]): Record<string, T> =>
  Object.fromEntries(all.map((each) => [each.id, each]));

/** The shipped vocabulary with every check and drill of the trade, bare of their cues. */
export function hearingBook(): CueBook {
  const file = new URL('scripts-cues/en/vocabulary.yaml', root);
  const vocabulary = vocabularySchema.parse(parse(readFileSync(file, 'utf8')));
  return {
    language: 'en',
    checks: byId(checks),
    drills: byId(drills),
    equipment: {},
    ladders: {},
    routines: {},
    warmUps: {},
    faults: faultsOf(vocabulary),
    vocabulary,
    lines: {},
  };
}

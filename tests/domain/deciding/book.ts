import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Area } from '../../../src/domain/areas';
import type { Fault } from '../../../src/domain/faults';
import type { Vocabulary } from '../../../src/domain/hearing/vocabulary';
import type {
  CheckScript,
  CueBook,
  DrillScript,
  Ladder,
  Routine,
} from '../../../src/domain/script';

/**
 * A small book of all three areas, so that the rules are tested apart from the wording and the
 * doses of the shipped scripts. The sentences are the shipped ones.
 */
const lines: Record<string, string | { text: string }> = parse(
  readFileSync(new URL('../../../scripts-cues/en/lines.yaml', import.meta.url), 'utf8'),
);

const check = (area: Area, id: string, more: Partial<CheckScript> = {}): CheckScript => ({
  id,
  area,
  name: `the ${id.replaceAll('-', ' ')}`,
  sided: false,
  loaded: false,
  needsCoach: false,
  equipment: [],
  setUp: [],
  setUpAgain: [],
  settleSeconds: 0,
  steps: [],
  ask: 'How was it?',
  faults: [],
  caution: '',
  ...more,
});

const drill = (
  area: Area,
  id: string,
  faults: string[],
  more: Partial<DrillScript> = {},
): DrillScript => ({
  id,
  area,
  name: `the ${id.replaceAll('-', ' ')}`,
  sided: false,
  loaded: true,
  equipment: [],
  instead: [],
  dose: { sets: 2, reps: 6 },
  setUp: [],
  setUpAgain: [],
  settleSeconds: 0,
  steps: [],
  ask: 'What was that set like?',
  good: 'Like this.',
  fixes: faults.map((fault) => ({ fault, cue: `Mind the ${fault}.` })),
  easier: { load: 'lighter', cue: 'Take less.' },
  heavier: { cue: 'Take more.' },
  loadGuidance: '',
  caution: '',
  ...more,
});

const FAULTS: Record<Area, string[]> = {
  overhead: ['ribs-flared', 'back-arched', 'arms-short'],
  squat: ['heels-up', 'knees-caved', 'back-rounded', 'elbows-dropped', 'depth-short'],
  hinge: ['back-rounded', 'shoulders-forward', 'knees-forward', 'toes-up', 'hips-first'],
};
const RANGE = ['arms-short', 'depth-short'];
const everyFault = [...new Set(Object.values(FAULTS).flat())];
const faults: Record<string, Fault> = Object.fromEntries(
  everyFault.map((id) => [
    id,
    {
      id,
      kind: RANGE.includes(id) ? 'range' : 'position',
      areas: (['overhead', 'squat', 'hinge'] as const).filter((area) => FAULTS[area].includes(id)),
      readback: id.replaceAll('-', ' '),
    },
  ]),
);

const checks = [
  check('overhead', 'overhead-passive', { sided: true, needsCoach: true }),
  check('overhead', 'overhead-active-lying', { needsCoach: true }),
  check('overhead', 'overhead-active-standing'),
  check('squat', 'squat-bodyweight'),
  check('squat', 'squat-front-rack', { loaded: true, equipment: ['barbell', 'stick'] }),
  check('hinge', 'hinge-unloaded'),
  check('hinge', 'hinge-bar', { loaded: true, equipment: ['barbell', 'stick'] }),
];

const unloaded = { loaded: false, heavier: null } as const;
const shallower = { load: 'shallower', cue: 'Go less deep.' } as const;
const only = { aloneOnlyIfAllowed: true } as const;
const needs = (...equipment: string[]) => ({ equipment });
const hang = { ...unloaded, easier: null } as const;
const drills = [
  drill('overhead', 'supported-hang', FAULTS.overhead, { ...hang, ...needs('bar-above', 'mat') }),
  drill('overhead', 'floor-reach', FAULTS.overhead, hang),
  drill('overhead', 'lying-pullover', FAULTS.overhead, needs('light-bell')),
  drill('overhead', 'hands-only-pullover', FAULTS.overhead, hang),
  drill('overhead', 'hands-knees-walkout', FAULTS.overhead, hang),
  drill('overhead', 'wall-slide', FAULTS.overhead, hang),
  drill('overhead', 'half-kneeling-press', FAULTS.overhead, {
    ...needs('corner-bar'),
    sided: true,
  }),
  drill('overhead', 'band-press', FAULTS.overhead, { ...needs('band'), sided: true }),
  drill('overhead', 'standing-press', FAULTS.overhead, needs('corner-bar')),
  drill('squat', 'cable-squat', FAULTS.squat, {
    ...unloaded,
    easier: shallower,
    ...needs('cable'),
  }),
  drill('squat', 'post-squat', FAULTS.squat, { ...unloaded, easier: shallower }),
  drill('squat', 'plate-reach-squat', FAULTS.squat, { easier: shallower, ...needs('plate') }),
  drill('squat', 'goblet-squat', FAULTS.squat, needs('kettlebell')),
  drill('squat', 'hugged-squat', FAULTS.squat, needs('plate')),
  drill('squat', 'front-squat', FAULTS.squat, { ...only, ...needs('barbell', 'rack') }),
  drill('hinge', 'bench-hinge', FAULTS.hinge, { ...hang, ...needs('bench') }),
  drill('hinge', 'wall-hinge', FAULTS.hinge, hang),
  drill('hinge', 'bell-hinge', FAULTS.hinge, {
    easier: { load: 'raised', cue: 'Raise it.' },
    ...needs('kettlebell'),
  }),
  drill('hinge', 'stick-hinge', FAULTS.hinge, { ...hang, ...needs('stick') }),
  drill('hinge', 'pull-through', FAULTS.hinge, needs('band')),
  drill('hinge', 'romanian-deadlift', FAULTS.hinge, { ...only, ...needs('barbell', 'rack') }),
  drill('hinge', 'two-bell-deadlift', FAULTS.hinge, { ...only, ...needs('two-bells') }),
  drill('hinge', 'deadlift', FAULTS.hinge, { ...only, ...needs('barbell') }),
];

const ALTERNATES: Record<string, string[]> = {
  'supported-hang': ['floor-reach'],
  'lying-pullover': ['hands-only-pullover'],
  'hands-knees-walkout': ['wall-slide'],
  'half-kneeling-press': ['band-press'],
  'cable-squat': ['post-squat'],
  'goblet-squat': ['hugged-squat'],
  'bench-hinge': ['wall-hinge'],
  'bell-hinge': ['stick-hinge', 'pull-through'],
  'romanian-deadlift': ['two-bell-deadlift'],
};
const rungs = (area: Area): Ladder['rungs'] =>
  drills
    .filter(({ id, area: its }) => its === area && !Object.values(ALTERNATES).flat().includes(id))
    .map(({ id }) => ({ drill: id, alternates: ALTERNATES[id] }));

const ladder = (area: Area, entry: Ladder['entry']): Ladder => ({
  area,
  rungs: rungs(area),
  entry,
});

const AREAS: Area[] = ['overhead', 'squat', 'hinge'];
const items = (what: 'checks' | 'ladder' | 'retest', areas: Area[]): Routine['items'] =>
  areas.map((area) => ({ do: what, area }));
const routine = (id: string, list: Routine['items']): Routine => ({
  id,
  name: id,
  ways: ['hands-on', 'alone'],
  items: list,
});
const routines = [
  routine('readiness', [
    ...items('checks', AREAS),
    ...items('ladder', AREAS),
    ...items('retest', AREAS),
  ]),
  ...AREAS.map((area) =>
    routine(area, [
      ...items('checks', [area]),
      ...items('ladder', [area]),
      ...items('retest', [area]),
    ]),
  ),
];

const byId = <T extends { id: string }>(list: T[]): Record<string, T> =>
  Object.fromEntries(list.map((one) => [one.id, one]));

/** What the drills and checks need; a mat has something that does as well. */
export const EQUIPMENT = [
  ...['band', 'bar-above', 'barbell', 'bench', 'cable', 'corner-bar', 'kettlebell'],
  ...['light-bell', 'mat', 'plate', 'rack', 'stick', 'two-bells'],
];
const ELSE: Record<string, string> = { mat: 'a folded towel' };

export const book: CueBook = {
  language: 'en',
  checks: byId(checks),
  drills: byId(drills),
  equipment: byId(EQUIPMENT.map((id) => ({ id, name: `a ${id}`, orElse: ELSE[id] }))),
  ladders: {
    overhead: ladder('overhead', [
      { rung: 1, checks: ['overhead-passive'] },
      { rung: 2, checks: ['overhead-active-lying'] },
      { rung: 3, checks: ['overhead-active-standing'], results: ['short'] },
      { rung: 4, checks: ['overhead-active-standing'], results: ['lost'] },
    ]),
    squat: ladder('squat', [
      { rung: 1, checks: ['squat-bodyweight'], faults: ['heels-up', 'knees-caved', 'depth-short'] },
      { rung: 2, checks: ['squat-bodyweight'], faults: ['back-rounded'] },
      {
        rung: 3,
        checks: ['squat-front-rack'],
        faults: ['heels-up', 'knees-caved', 'back-rounded'],
      },
      { rung: 4, checks: ['squat-front-rack'], faults: ['elbows-dropped'] },
    ]),
    hinge: ladder('hinge', [
      { rung: 1, checks: ['hinge-unloaded'], faults: ['shoulders-forward', 'back-rounded'] },
      { rung: 2, checks: ['hinge-unloaded'], faults: ['knees-forward', 'toes-up'] },
      { rung: 3, checks: ['hinge-unloaded'], faults: ['hips-first'] },
      { rung: 3, checks: ['hinge-bar'] },
    ]),
  },
  warmUps: {},
  routines: byId(routines),
  faults,
  vocabulary: {} as Vocabulary,
  lines: Object.fromEntries(
    Object.entries(lines).map(([key, line]) => [key, typeof line === 'string' ? line : line.text]),
  ),
};

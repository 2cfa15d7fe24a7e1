/**
 * Whom the invented club is made of, and what their coach says at each visit. Nobody is real: the
 * names are things.
 */
import type { PersonFields } from '../domain/people/personFrom';
import type { RoutineId } from '../domain/script';

export const CLUB_NAME = 'The Invented Club';

/** The days of the three visits; nothing happened on them. */
export const VISIT_DAYS = {
  'Invented juniors': ['2031-03-04', '2031-03-18', '2031-04-15'],
  'Invented seniors': ['2031-03-06', '2031-03-20', '2031-04-17'],
} as const satisfies Record<string, readonly [string, string, string]>;
export type SquadName = keyof typeof VISIT_DAYS;

/** What is done at a visit: the routine, and the coach's replies in their order. */
export interface Visit {
  routine: RoutineId;
  replies: string[];
}

export interface Invented {
  squad: SquadName;
  fields: Omit<PersonFields, 'squad'>;
  visits: [Visit, Visit, Visit];
}

const visit = (routine: RoutineId, ...replies: string[]): Visit => ({
  routine,
  replies: replies.flatMap((line) => line.split(' / ')),
});

const ALL_HELD = () =>
  visit(
    'readiness',
    'left side, one seventy, pass / pass on the right, one sixty five / pass / clean, pass',
    'clean / held / that was clean / pass',
  );
const OVERHEAD_HELD = () => visit('overhead', 'both sides clear / clean, back stayed down / pass');
const SQUAT_HELD = () => visit('squat', 'clean / that was clean');
const HINGE_HELD = () => visit('hinge', 'pass / clean');
const HINGE_GIVEN_UP = () =>
  visit(
    'hinge',
    'back rounded / clean / clean / back rounding again / rounded / still rounding',
    'clean set / clean set / back rounded / back rounded / rounded again',
    "back's still rounding",
  );
const HINGE_UP_THE_LADDER = () =>
  visit(
    'hinge',
    'knees came forward / clean / clean / clean set / clean / that was clean / clean',
    'pass / pass',
  );
const HINGE_UNDER_THE_BAR = () =>
  visit('hinge', 'clean / bar drifts away / clean set / clean set / clean / clean / pass');
const SQUAT_COMES_BACK = () =>
  visit(
    'squat',
    'heels came up / clean / clean / clean set / clean / chest dropped / clean / clean',
    'clean / clean / pass / pass',
  );
const SQUAT_KNOWN_PAIN = () =>
  visit(
    'squat',
    'chest dropped / clean / it hurts / about a four / that one is known / clean / clean / pass',
  );
const SQUAT_STAYS = () =>
  visit('squat', 'heels came up / heels up / heels up again / still heels up / heels came up');
const OVERHEAD_ARCHED = () =>
  visit(
    'overhead',
    'both sides clear / clean, back stayed down / back arched',
    'left ribs flared / right side clean / left is clean now / right clean / clean',
    'same on the right / yes / clean set / pass / still arching the back',
  );

export const CLUB: readonly Invented[] = [
  {
    squad: 'Invented juniors',
    fields: {
      ...{ name: 'Pebble Lantern', birthYear: '2014', sex: 'female', stature: '158 cm' },
      ...{ knee: '44 cm', guardianAgreedOn: '2031-02-25' },
    },
    visits: [ALL_HELD(), HINGE_HELD(), ALL_HELD()],
  },
  {
    squad: 'Invented juniors',
    fields: {
      ...{ name: 'Thimble Acorn', birthYear: '2015', sex: 'male', knee: '42.5 cm' },
      guardianAgreedOn: '2031-02-25',
    },
    visits: [HINGE_GIVEN_UP(), HINGE_UP_THE_LADDER(), SQUAT_HELD()],
  },
  {
    squad: 'Invented juniors',
    fields: {
      ...{ name: 'Button Thistle', birthYear: '2013', sex: 'female', stature: '166 cm' },
      ...{ mindText: 'Knee was sore in winter.', guardianAgreedOn: '2031-03-01' },
    },
    visits: [SQUAT_KNOWN_PAIN(), SQUAT_COMES_BACK(), OVERHEAD_ARCHED()],
  },
  {
    squad: 'Invented juniors',
    fields: {
      ...{ name: 'Kettle Sparrow', birthYear: '2014', sex: 'male', angleTool: 'inclinometer' },
      guardianAgreedOn: '2031-03-01',
    },
    visits: [
      visit(
        'readiness',
        'pass / pass / clean / pass / chest dropped / shoulders reached forward / clean set',
        'that hurts / seven / clean / clean / pass',
      ),
      OVERHEAD_HELD(),
      HINGE_UP_THE_LADDER(),
    ],
  },
  {
    squad: 'Invented juniors',
    fields: { name: 'Saddle Pumpkin', birthYear: '2016', guardianAgreedOn: '2031-03-01' },
    visits: [
      visit('overhead', 'pass, one sixty / one forty on the right, limited / stop / yes'),
      OVERHEAD_HELD(),
      HINGE_UNDER_THE_BAR(),
    ],
  },
  {
    // Whose guardian nobody has asked yet.
    squad: 'Invented juniors',
    fields: { name: 'Ribbon Gravel', birthYear: '2015', sex: 'female' },
    visits: [
      visit('hinge', 'knees forward / ow, sharp pain in the back / three / clean / clean / pass'),
      OVERHEAD_HELD(),
      SQUAT_STAYS(),
    ],
  },
  {
    squad: 'Invented seniors',
    fields: {
      ...{ name: 'Copper Teapot', birthYear: '1998', sex: 'male', stature: '181 cm' },
      ...{ knee: '51 cm', angleTool: 'goniometer' },
    },
    visits: [ALL_HELD(), SQUAT_HELD(), HINGE_UNDER_THE_BAR()],
  },
  {
    squad: 'Invented seniors',
    fields: { name: 'Velvet Anvil', birthYear: '2001', sex: 'female', stature: '170 cm' },
    visits: [OVERHEAD_ARCHED(), OVERHEAD_HELD(), HINGE_GIVEN_UP()],
  },
  {
    squad: 'Invented seniors',
    fields: { name: 'Turnip Feather', birthYear: '2005', mindText: 'Asks before each lift.' },
    visits: [SQUAT_STAYS(), SQUAT_COMES_BACK(), HINGE_HELD()],
  },
  {
    squad: 'Invented seniors',
    fields: { name: 'Marble Bucket', birthYear: '1989', sex: 'male', stature: '176 cm' },
    visits: [
      HINGE_UP_THE_LADDER(),
      visit('squat', 'pass / chest pain'),
      visit('overhead', 'pass / pass / clean / stop / yes'),
    ],
  },
  {
    squad: 'Invented seniors',
    fields: { name: 'Walnut Compass', birthYear: '2003', sex: 'female', knee: '47 cm' },
    visits: [HINGE_HELD(), SQUAT_KNOWN_PAIN(), SQUAT_HELD()],
  },
  {
    squad: 'Invented seniors',
    fields: { name: 'Pepper Trellis' },
    visits: [ALL_HELD(), OVERHEAD_HELD(), SQUAT_STAYS()],
  },
];

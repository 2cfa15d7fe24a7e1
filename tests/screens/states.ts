import type { Finding } from '../../src/domain/findings';
import type { SessionEvent } from '../../src/ports';
import type { SeatState, VoiceCheckState } from '../../src/screens/seat';
import { STATE, viewAfter } from './fakeSeat';

export const step = (
  prompt: string,
  more: Partial<Extract<SessionEvent, { type: 'step' }>> = {},
): SessionEvent => ({ type: 'step', prompt, set: 1, of: 2, side: null, rung: null, ...more });
export const phase = (
  name: Extract<SessionEvent, { type: 'phase' }>['phase'],
  seconds: number | null = null,
): SessionEvent => ({ type: 'phase', phase: name, seconds });
export const cue = (text: string): SessionEvent => ({ type: 'cue', text, seconds: 3 });
export const listen = (prompt: string): SessionEvent => ({ type: 'listen', prompt });
export const heard = (
  text: string,
  verdict: 'accept' | 'confirm' | 'ignore',
  readback: string | null,
): SessionEvent => ({ type: 'heard', text, verdict, readback });
export const finding = (
  prompt: string,
  more: Partial<Finding> = {},
): Extract<SessionEvent, { type: 'finding' }> => ({
  type: 'finding',
  prompt,
  load: null,
  side: null,
  result: 'held',
  faults: [],
  angleDegrees: null,
  tool: null,
  pain: null,
  ...more,
});
export const decision = (because: string, rule: string, to: string | null): SessionEvent => ({
  type: 'decision',
  area: 'hinge',
  from: 'bench-hinge',
  to,
  because,
  rule,
});

const run = (events: SessionEvent[], more: Partial<SeatState> = {}): SeatState => ({
  ...STATE,
  where: 'run',
  microphone: { state: 'hears', level: 0.5, hearsWell: 'good' },
  view: viewAfter(events),
  ...more,
});
const RDL = step('set/romanian-deadlift', { set: 1, of: 2, rung: 3 });
const CHECK = step('check/hinge-unloaded', { set: null, of: null });
const UP = decision('two held sets: up to the Romanian deadlift', '2.2', 'romanian-deadlift');

const FOUND = [
  finding('check/hinge-unloaded', { result: 'lost', faults: ['knees-forward', 'toes-up'] }),
  finding('set/bench-hinge'),
  finding('set/bench-hinge'),
  finding('set/bell-hinge', { result: 'pain', pain: 2 }),
  finding('check/overhead-passive', {
    side: 'left',
    result: 'short',
    angleDegrees: 140,
    tool: 'eye',
  }),
  finding('check/hinge-bar', { result: 'not-tested' }),
];
type End = Extract<SessionEvent, { type: 'end' }>;
type Stands = End['areas'][number];
const stands = (
  area: Stands['area'],
  outcome: Stands['outcome'],
  sentence: string,
  more: Partial<Stands> = {},
): Stands => ({
  area,
  outcome,
  rung: null,
  drill: null,
  pattern: null,
  waitsFor: null,
  sentence,
  reasons: [],
  failed: [],
  regained: [],
  notTested: [],
  ...more,
});
const angle = (degrees: number) => ({ degrees, tool: 'inclinometer' as const });
const ARMS: End['measured'][number] = {
  area: 'overhead',
  check: 'overhead-passive',
  sides: [
    {
      side: 'left',
      first: angle(140),
      retest: angle(152),
      stands: angle(152),
      change: null,
      passLine: null,
      norm: null,
    },
  ],
  sideDifference: null,
  told: [
    { what: 'Left: 140, then 152 degrees by inclinometer.', says: 'Within what it can be out by.' },
    { what: 'Left and right differ by 6 degrees.', says: '' },
  ],
  sources: ['Dougherty 2015: computed from what was published.'],
};
const BELL: End['homework'][number] = {
  area: 'hinge',
  drill: 'bell-hinge',
  name: 'the bell hinge',
  rung: 2,
  rule: '13.1',
  because: 'This is what was held last in the hinge.',
  sets: 3,
  reps: 6,
  breaths: null,
  perSide: false,
  load: 'raised',
  dose: '3 sets of 6',
  loadNote: 'Put one more block under the bell.',
  loadGuidance: 'The top of the bell stands at knee height.',
  caution: 'Put the bell down at once where anything hurts.',
  equipment: ['a kettlebell', 'blocks or plates'],
  instead: ['a dumbbell stood on end'],
  alternates: [],
  coach: 'load-handed-over',
  coachNote: 'Alone, never more load than the coach handed over.',
};
const decided = (because: string, to: string, by: 'rules' | 'coach' = 'rules') => ({
  ...{ area: 'hinge' as const, from: 'bench-hinge', to, because, by },
  rule: by === 'coach' ? '9.3' : '2.2',
  atSeconds: 60,
});
const end = (reason: End['reason'], more: Partial<End> = {}): End => ({
  type: 'end',
  reason,
  areas: [
    stands('hinge', 'working', 'The hinge needs work, from the bell hinge on.', {
      rung: 2,
      drill: 'bell-hinge',
      pattern: 'position-given-up',
      reasons: [
        'The unloaded hinge: position given up (knees forward).',
        'The hinge with the bar: not tested, since the unloaded check did not hold.',
      ],
    }),
    stands('overhead', 'unfinished', 'The overhead reach is not finished.'),
  ],
  reportedBy: 'coach',
  liftsReady: [],
  liftsMissing: [
    {
      lift: 'pulls',
      missing: [{ area: 'hinge', outcome: 'working', rung: 2 }],
      sentence: 'Pulls and deadlifts: missing hinge (working at the bell hinge).',
    },
  ],
  homework: [BELL],
  noHomework: [],
  measured: [],
  nextDate: '2026-02-28',
  nextVisit: { date: '2026-02-28', rule: '13.9', because: 'A week of homework first.' },
  cautions: ['Ready to be taught means that these checks held.', 'This is not medical advice.'],
  findings: FOUND.map((one) => ({ ...one, painKind: one.pain === null ? null : 'known' })),
  decisions: [
    decided('knees came forward: start at the bell hinge', 'bell-hinge'),
    decided('You decide: on to the Romanian deadlift', 'romanian-deadlift', 'coach'),
  ],
  ...more,
});
const finished = (event: SessionEvent): SeatState => ({
  ...STATE,
  where: 'finished',
  view: viewAfter([...FOUND, UP, event]),
});

/** Every screen in every state a person can meet, by name. */
const LINE = { text: 'pass', isAgain: false, insteadOf: null, takenFor: null };
const LOADING = { state: 'loading' as const, progress: 0.4 };
const voiceCheck = (check: Partial<VoiceCheckState>, more: Partial<SeatState> = {}): SeatState => ({
  ...STATE,
  where: 'voiceCheck',
  microphone: { state: 'hears', level: 0.5, hearsWell: 'good' },
  voiceCheck: {
    ...{ stage: 'reading', line: LINE, isHeard: false, done: 3, of: 20, results: [] },
    ...check,
  },
  ...more,
});

export const STATES: Record<string, SeatState> = {
  'gate-first': STATE,
  'gate-asking': { ...STATE, microphone: { ...STATE.microphone, state: 'asking' } },
  'gate-hears': {
    ...STATE,
    microphone: { state: 'hears', level: 0.6, hearsWell: 'good' },
    ear: { state: 'loading', progress: 0.4 },
  },
  'gate-loud': { ...STATE, microphone: { state: 'hears', level: 1, hearsWell: 'loud' } },
  'gate-denied': {
    ...STATE,
    microphone: { ...STATE.microphone, state: 'denied' },
    voice: 'none',
  },
  'gate-none': { ...STATE, microphone: { ...STATE.microphone, state: 'none' } },
  'gate-ear-failed': { ...STATE, ear: { state: 'failed', progress: null } },
  'gate-fetching': {
    ...STATE,
    offline: { state: 'fetching', what: 'voice', progress: 0.6, newVersion: null },
  },
  'gate-full': {
    ...STATE,
    offline: { state: 'full', what: 'voice', progress: 0.6, newVersion: 'waiting' },
  },
  'gate-fitted': {
    ...STATE,
    coach: {
      readings: 24,
      ownWords: [{ kind: 'results', id: 'short', words: 'so so' }],
      callWord: 'chalky',
      trouble: 'full',
    },
  },
  'voice-loading': voiceCheck({ stage: 'loading', line: null, of: 0 }, { ear: LOADING }),
  'voice-reading': voiceCheck({}),
  'voice-again': voiceCheck({ line: { ...LINE, isAgain: true, takenFor: 'pause' } }),
  'voice-deaf': voiceCheck(
    { stage: 'deaf' },
    { microphone: { ...STATE.microphone, state: 'unplugged' } },
  ),
  'voice-nobody': voiceCheck({ stage: 'nobodyHeard' }),
  'voice-failed': voiceCheck({ stage: 'failed', line: null }),
  'voice-finished': voiceCheck({
    stage: 'finished',
    line: null,
    done: 4,
    of: 4,
    results: [
      { text: 'yes', verdict: 'well', takenFor: null, better: null },
      { text: 'pass', verdict: 'other', takenFor: 'pause', better: 'clear' },
      { text: 'rep', verdict: 'unsure', takenFor: null, better: null },
      { text: 'next', verdict: 'unheard', takenFor: null, better: null },
      { text: 'skip', verdict: 'skipped', takenFor: null, better: null },
    ],
  }),
  'run-starting': run([]),
  'run-cueing': run([UP, RDL, phase('cueing'), cue('Stand tall. The bar hangs from long arms.')]),
  'run-settling': run([RDL, phase('settling', 8), cue('Unlock your knees and leave them there.')]),
  'run-exhaling': run([
    step('set/half-kneeling-press', { side: 'left', rung: 4 }),
    phase('exhaling', 6),
    cue('Breathe out, long.'),
    { type: 'beat', count: 3 },
  ]),
  'run-repeating': run([RDL, phase('repeating', 5), cue('Down.'), { type: 'beat', count: 4 }]),
  'run-resting': run([RDL, phase('resting', 45), cue('Rest.')]),
  'run-check-open': run([
    CHECK,
    phase('asking'),
    cue('How did the hinge look?'),
    phase('listening'),
    listen('check/hinge-unloaded'),
    heard('keep your knees back', 'ignore', null),
  ]),
  'run-set-open': run([
    RDL,
    phase('asking'),
    cue('What was that set like?'),
    phase('listening'),
    listen('set/romanian-deadlift'),
  ]),
  'run-side-open': run([
    step('check/overhead-passive', { side: 'right', set: null, of: null }),
    phase('asking'),
    cue('Right side: what did you see?'),
    phase('listening'),
    listen('check/overhead-passive'),
    heard('left one forty short', 'accept', 'left, one forty, short'),
  ]),
  'run-offer': run([
    CHECK,
    phase('listening'),
    listen('check/hinge-unloaded'),
    heard('pass but knees forward', 'confirm', 'knees forward'),
    phase('confirming'),
    cue('Knees forward. Is that right?'),
    listen('confirm'),
  ]),
  'run-halted': run([
    RDL,
    phase('holding', 5),
    { type: 'tone', name: 'halted' },
    phase('asking'),
    cue('Shall I end the session here?'),
    phase('listening'),
    listen('confirm'),
  ]),
  'run-pain-number': run([
    RDL,
    phase('listening'),
    listen('set/romanian-deadlift'),
    heard('that hurts', 'accept', 'pain'),
    finding('set/romanian-deadlift', { result: 'pain' }),
    { type: 'tone', name: 'accepted' },
    phase('asking'),
    cue('How much does it hurt, from zero to ten?'),
    phase('listening'),
    listen('pain/how-much'),
  ]),
  'run-pain-kind': run([
    RDL,
    phase('listening'),
    cue('Is that new to you, or sharp, or one you know?'),
    listen('pain/kind'),
  ]),
  'run-outcome': run([
    step('check/overhead-passive', { side: 'right', set: null, of: null }),
    phase('listening'),
    listen('check/overhead-passive'),
    { type: 'tone', name: 'accepted' },
    decision('Now the hinge.', '10.1', 'hinge-unloaded'),
    { type: 'outcome', area: 'overhead', outcome: 'ready', rung: null, pattern: null },
    cue('The overhead reach is ready to be taught.'),
  ]),
  'run-paused': run([RDL, phase('repeating', 5), phase('paused')]),
  'run-trouble': run(
    [
      CHECK,
      phase('waiting'),
      listen('check/hinge-unloaded'),
      { type: 'trouble', what: 'unplugged', say: null },
      { type: 'trouble', what: 'full', say: null },
    ],
    { microphone: { ...STATE.microphone, state: 'unplugged' }, voice: 'none' },
  ),
  'run-rehearsal': run([CHECK, phase('cueing'), cue('Three slow hinges.')], { rehearsal: true }),
  'finished-working': finished(end('completed')),
  'finished-ready': finished(
    end('completed', {
      areas: [stands('hinge', 'ready', 'The hinge is ready to be taught.', { rung: 4 })],
      liftsReady: ['pulls'],
      liftsMissing: [],
      homework: [],
    }),
  ),
  'finished-measured': finished(end('completed', { measured: [ARMS] })),
  'finished-after-pain': finished(
    end('completed', {
      areas: [
        stands('squat', 'ready', 'The squat held. Nothing loaded in it.', {
          waitsFor: 'professional',
        }),
        stands('hinge', 'working', 'No more of the hinge.', { rung: 1, waitsFor: 'professional' }),
      ],
      homework: [],
      noHomework: [{ area: 'hinge', rule: '13.14', because: 'Hinge: no homework.' }],
    }),
  ),
  'finished-alone': finished(
    end('completed', {
      reportedBy: 'athlete',
      areas: [stands('hinge', 'ready', 'You say that the hinge held.')],
      liftsReady: ['pulls'],
      liftsMissing: [],
      homework: [],
      cautions: ['Let a coach see it.', 'This is not medical advice.'],
    }),
  ),
  'finished-red-flag': finished(
    end('red-flag', {
      areas: [stands('hinge', 'referred', 'A licensed professional decides.', { rung: 1 })],
      homework: [],
      nextDate: null,
      nextVisit: { date: null, rule: '13.8', because: 'No date after a warning sign.' },
    }),
  ),
  'finished-forbidden': finished(
    end('completed', {
      homework: [],
      noHomework: [{ area: 'hinge', rule: '13.4', because: 'Hinge: no homework.' }],
    }),
  ),
  'finished-stopped': {
    ...finished(
      end('stopped', { areas: [], findings: [], decisions: [], homework: [], liftsMissing: [] }),
    ),
    rehearsal: true,
  },
};

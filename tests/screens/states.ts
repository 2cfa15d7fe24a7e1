import type { Finding } from '../../src/domain/findings';
import type { SessionEvent } from '../../src/ports';
import type { SeatState } from '../../src/screens/seat';
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
const end = (
  reason: Extract<SessionEvent, { type: 'end' }>['reason'],
  more: Partial<Extract<SessionEvent, { type: 'end' }>> = {},
): SessionEvent => ({
  type: 'end',
  reason,
  areas: [
    { area: 'hinge', outcome: 'working', rung: 2 },
    { area: 'overhead', outcome: 'unfinished', rung: null },
  ],
  liftsReady: [],
  findings: FOUND,
  ...more,
});
const finished = (event: SessionEvent): SeatState => ({
  ...STATE,
  where: 'finished',
  view: viewAfter([
    ...FOUND,
    decision('knees came forward: start at the bench hinge', '1.4', 'bench-hinge'),
    UP,
    event,
  ]),
});

/** Every screen in every state a person can meet, by name. */
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
  'gate-unfinished': {
    ...STATE,
    unfinished: {
      session: 's1',
      routine: 'hinge',
      startedAt: '2026-03-04T10:20:00+01:00',
      ended: null,
    },
  },
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
    cue('How was the set?'),
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
      areas: [{ area: 'hinge', outcome: 'ready', rung: 4 }],
      liftsReady: ['pulls'],
    }),
  ),
  'finished-red-flag': finished(
    end('red-flag', { areas: [{ area: 'hinge', outcome: 'referred', rung: 1 }] }),
  ),
  'finished-stopped': {
    ...finished(end('stopped', { areas: [], findings: [] })),
    rehearsal: true,
  },
};

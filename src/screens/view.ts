import type { PromptId } from '../domain/script';
import type { Entry } from '../domain/log';
import { live } from '../domain/deciding/reading';
import type { Phase, SessionEvent, ToneName } from '../ports';

/** An event of the timeline with its time in the session, seconds. */
export type TimedEvent = SessionEvent & { atSeconds: number };
export type Told<T extends SessionEvent['type']> = Extract<SessionEvent, { type: T }>;

/** What the screens know of a session, folded from its timeline. Times in session seconds. */
export interface View {
  step: Told<'step'> | null;
  /** Null before the first event. */
  phase: Phase | null;
  phaseSeconds: number | null;
  /** When the phase ends, absolute; null where it waits for somebody. */
  endsAtSeconds: number | null;
  /** The last count of this phase (seconds of an exhale, breaths of a hold), from 1. */
  count: number | null;
  /** The repetition under way, from 1; null where none was counted in this step. */
  rep: number | null;
  cue: { text: string; endsAtSeconds: number } | null;
  /** What the phone as a level tells in this phase; null where it tells nothing. */
  tilt: Told<'tilt'> | null;
  /** The tone that sounded last, until something else begins; null where none did. */
  tone: ToneName | null;
  heard: Told<'heard'> | null;
  /** What waits for a yes or a no, in words, or null. */
  offered: string | null;
  /** Two readings that wait for a choice, or null. */
  either: Told<'heard'>['either'] | null;
  /** The question that is being asked or is open, or `idle`. */
  prompt: PromptId;
  /** Something of this step was answered, so a question that follows is about something else. */
  settled: boolean;
  /** "Stop" was heard and the question whether to end is not answered yet. */
  halted: boolean;
  decisions: Told<'decision'>[];
  /** How an area came out, until the next step or question; null where none was just told. */
  outcome: Told<'outcome'> | null;
  /** The latest of each kind, newest last. */
  troubles: Told<'trouble'>[];
  end: Told<'end'> | null;
}

export const EMPTY_VIEW: View = {
  step: null,
  phase: null,
  phaseSeconds: null,
  endsAtSeconds: null,
  count: null,
  rep: null,
  cue: null,
  tilt: null,
  tone: null,
  heard: null,
  offered: null,
  either: null,
  prompt: 'idle',
  settled: false,
  halted: false,
  decisions: [],
  outcome: null,
  troubles: [],
  end: null,
};

/** Phases that leave an open question open; every other phase is work, where none is. */
const KEEPS_QUESTION: readonly Phase[] = ['listening', 'confirming', 'waiting', 'paused', 'halted'];

/** The view after one more event of the timeline; pure. */
export function viewOf(view: View, { atSeconds, ...event }: TimedEvent): View {
  switch (event.type) {
    case 'cue':
      return {
        ...view,
        cue: { text: event.text, endsAtSeconds: atSeconds + event.seconds },
      };
    case 'tone':
      return { ...toneSounds(view, event.name), tone: event.name };
    case 'beat':
      return view.phase === 'repeating'
        ? { ...view, rep: event.count }
        : { ...view, count: event.count };
    case 'phase':
      return phaseBegins(view, event.phase, event.seconds, atSeconds);
    case 'listen':
      return { ...view, prompt: event.prompt };
    case 'heard': {
      const offers = event.verdict === 'confirm';
      return {
        ...view,
        // The whole is told now: a sign for its beginning, or for words before it, is over.
        tone: view.tone === 'heard' || view.tone === 'not-understood' ? null : view.tone,
        heard: event,
        offered: offers ? (event.readback ?? event.text) : view.offered,
        either: offers ? (event.either ?? null) : view.either,
      };
    }
    case 'heard-nothing':
      return { ...view, tone: view.tone === 'heard' ? null : view.tone };
    case 'finding':
      return { ...view, ...SETTLED };
    case 'decision':
      return { ...view, decisions: [...view.decisions, event] };
    case 'step':
      return {
        ...view,
        ...NO_TIME,
        ...SETTLED,
        ...{ step: event, rep: null, settled: false, outcome: null },
      };
    case 'outcome':
      return { ...view, outcome: event };
    case 'tilt':
      return { ...view, tilt: event };
    case 'trouble': {
      const others = view.troubles.filter(({ what }) => what !== event.what);
      return { ...view, troubles: [...others, event] };
    }
    case 'end':
      return {
        ...view,
        ...NO_TIME,
        ...SETTLED,
        phase: 'ended',
        end: event,
      };
  }
}

const NO_TIME = { phaseSeconds: null, endsAtSeconds: null, count: null } as const;
const SETTLED = {
  prompt: 'idle',
  offered: null,
  either: null,
  settled: true,
  halted: false,
} as const;

/** Two tones say what no other event does: an answer is on record, and "stop" was heard. */
function toneSounds(view: View, name: ToneName): View {
  if (name === 'accepted') {
    const phase = view.phase === 'paused' ? 'paused' : 'cueing';
    return { ...view, ...NO_TIME, ...SETTLED, phase };
  }
  if (name !== 'halted') return view;
  return { ...view, ...NO_TIME, ...SETTLED, phase: 'halted', halted: true, prompt: 'confirm' };
}

function phaseBegins(view: View, phase: Phase, seconds: number | null, atSeconds: number): View {
  const asking = phase === 'asking';
  const next = {
    ...view,
    tone: null,
    tilt: null,
    phase,
    phaseSeconds: seconds,
    endsAtSeconds: seconds === null ? null : atSeconds + seconds,
    count: null,
    prompt: asking ? promptAsked(view) : view.prompt,
    offered: asking ? null : view.offered,
    either: asking ? null : view.either,
    outcome: asking ? null : view.outcome,
  };
  return asking || KEEPS_QUESTION.includes(phase)
    ? next
    : { ...next, prompt: 'idle', halted: false };
}

/** Which question is being asked before it opens: work ends in its own, others open unannounced. */
function promptAsked({ prompt, phase, settled, step }: View): PromptId {
  const refused = prompt === 'confirm' && phase === 'confirming';
  if (prompt !== 'idle' && !refused) return prompt;
  return settled || step === null ? 'idle' : step.prompt;
}

/** Seconds left of the phase at that time, rounded up, never below 0; null where it waits. */
export const secondsLeft = (view: View, nowSeconds: number): number | null =>
  view.endsAtSeconds === null ? null : Math.max(0, Math.ceil(view.endsAtSeconds - nowSeconds));

/** The view of a session that is taken up again: what its log says was decided. */
export const viewOfLog = (log: Entry[]): View => ({
  ...EMPTY_VIEW,
  decisions: live(log).filter((entry) => entry.type === 'decision'),
});

/** The last decision leads nowhere: the session is being closed, and nobody should go on. */
export const isEnding = (view: View): boolean => view.decisions.at(-1)?.to === null;

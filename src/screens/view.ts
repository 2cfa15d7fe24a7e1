import type { Finding } from '../domain/findings';
import type { PromptId } from '../domain/script';
import type { Phase, SessionEvent } from '../ports';

/** An event of the timeline with its time in the session, seconds. */
export type TimedEvent = SessionEvent & { atSeconds: number };
export type Told<T extends SessionEvent['type']> = Extract<SessionEvent, { type: T }>;

/** A finding with the prompt it answered, or null where that is not known. */
export type Found = Finding & { prompt: PromptId | null };

/** How an area stands: `rung` is the last one held, 0 below the first, null without a ladder. */
export type Standing = Told<'end'>['areas'][number];

/** What the screens know of a session, folded from its timeline. Times in session seconds. */
export interface View {
  step: Told<'step'> | null;
  /** Null before the first event. */
  phase: Phase | null;
  phaseSeconds: number | null;
  /** When the phase ends, absolute; null where it waits for somebody. */
  endsAtSeconds: number | null;
  /** The last count spoken or sounded in this phase. */
  count: number | null;
  cue: { text: string; endsAtSeconds: number } | null;
  heard: Told<'heard'> | null;
  /** What waits for a yes or a no, in words, or null. */
  offered: string | null;
  /** The open question, or `idle`. */
  prompt: PromptId;
  findings: Found[];
  decisions: Told<'decision'>[];
  outcomes: Standing[];
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
  cue: null,
  heard: null,
  offered: null,
  prompt: 'idle',
  findings: [],
  decisions: [],
  outcomes: [],
  troubles: [],
  end: null,
};

/** Phases in which a question is being asked or is open; in all others the prompt is `idle`. */
const QUESTIONING: readonly Phase[] = [
  'asking',
  'listening',
  'confirming',
  'waiting',
  'paused',
  'halted',
];

/** The view after one more event of the timeline; pure. */
export function viewOf(view: View, { atSeconds, ...event }: TimedEvent): View {
  switch (event.type) {
    case 'cue':
      return {
        ...view,
        cue: { text: event.text, endsAtSeconds: atSeconds + event.seconds },
      };
    case 'tone':
      return view;
    case 'beat':
      return { ...view, count: event.count };
    case 'phase':
      return phaseBegins(view, event.phase, event.seconds, atSeconds);
    case 'listen':
      return { ...view, prompt: event.prompt };
    case 'heard': {
      const offers = event.verdict === 'confirm';
      return {
        ...view,
        heard: event,
        offered: offers ? (event.readback ?? event.text) : view.offered,
      };
    }
    case 'finding':
      return { ...view, findings: [...view.findings, event], offered: null };
    case 'decision':
      return { ...view, decisions: [...view.decisions, event] };
    case 'step':
      return { ...view, ...NO_TIME, step: event, prompt: 'idle', offered: null };
    case 'outcome': {
      const others = view.outcomes.filter(({ area }) => area !== event.area);
      return { ...view, outcomes: [...others, event] };
    }
    case 'trouble': {
      const others = view.troubles.filter(({ what }) => what !== event.what);
      return { ...view, troubles: [...others, event] };
    }
    case 'end':
      return {
        ...view,
        ...NO_TIME,
        phase: 'ended',
        prompt: 'idle',
        end: event,
        outcomes: event.areas,
      };
  }
}

const NO_TIME = { phaseSeconds: null, endsAtSeconds: null, count: null } as const;

function phaseBegins(view: View, phase: Phase, seconds: number | null, atSeconds: number): View {
  const asks = QUESTIONING.includes(phase);
  return {
    ...view,
    phase,
    phaseSeconds: seconds,
    endsAtSeconds: seconds === null ? null : atSeconds + seconds,
    count: null,
    prompt: phase === 'asking' ? (view.step?.prompt ?? view.prompt) : asks ? view.prompt : 'idle',
    offered: phase === 'asking' ? null : view.offered,
  };
}

/** Seconds left of the phase at that time, rounded up, never below 0; null where it waits. */
export const secondsLeft = (view: View, nowSeconds: number): number | null =>
  view.endsAtSeconds === null ? null : Math.max(0, Math.ceil(view.endsAtSeconds - nowSeconds));

/**
 * The findings that count at the end (an undone one does not), each with its prompt where the
 * timeline told it. They are matched from the last backwards, since undo takes back the last.
 */
export function findingsAtEnd(view: View): Found[] {
  if (view.end === null) return view.findings;
  let at = view.findings.length;
  const kept: Found[] = [];
  for (const finding of [...view.end.findings].reverse()) {
    const found = view.findings.slice(0, at).findLastIndex((told) => isSame(told, finding));
    kept.unshift({ ...finding, prompt: view.findings[found]?.prompt ?? null });
    if (found >= 0) at = found;
  }
  return kept;
}

const isSame = (one: Finding, other: Finding): boolean =>
  one.side === other.side &&
  one.result === other.result &&
  one.angleDegrees === other.angleDegrees &&
  one.pain === other.pain &&
  one.faults.join() === other.faults.join();

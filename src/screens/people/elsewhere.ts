import type { RoutineId } from '../../domain/script';
import type { Phase } from '../../ports';
import type { Told } from '../view';

/** What another tab of this device does now. */
export interface Elsewhere {
  session: string;
  /** Whose session it is, by id; null where nobody was named. */
  person: string | null;
  routine: RoutineId;
  step: Told<'step'> | null;
  phase: Phase | null;
  /** What was said there last, and heard. */
  cue: string | null;
  heard: string | null;
  /** Not a rehearsal, and not one of a squad day, which goes on where it was begun. */
  mayGoOnHere: boolean;
}

export interface ElsewhereState extends Elsewhere {
  /** It was asked to go on here, and the other tab has not answered yet. */
  isAsked: boolean;
  /** Why something was not done here, and what to do; null where nothing is wrong. */
  trouble: string | null;
}

/** What may be done here with a session that runs in another tab. */
export interface ElsewhereHands {
  /** The other tab stores and lets go; the session goes on here at the same question. From a tap. */
  goOnHere(): void;
  /** Stops it there, as if it had been said. */
  stop(): void;
}

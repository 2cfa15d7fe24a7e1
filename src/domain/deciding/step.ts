import type { Area, AreaOutcome, Side } from '../areas';
import type { FaultId } from '../faults';
import type { Load } from '../findings';
import type { EndReason } from '../log';
import type { CheckId, DrillId, PromptId } from '../script';

/** The one thing to do now. */
export type Step =
  | {
      do: 'check';
      prompt: PromptId;
      area: Area;
      check: CheckId;
      /** Null for a check without sides. */
      side: Side | null;
      /** 1 to 3. */
      try: number;
      retest: boolean;
    }
  | {
      do: 'set';
      prompt: PromptId;
      area: Area;
      drill: DrillId;
      side: Side | null;
      rung: number;
      /** Which set on this visit of the rung, from 1. */
      set: number;
      /** How many sets are foreseen on this visit if all are held. */
      of: number;
      load: Load;
      /** The one fault whose fix cue is said first, or null. */
      fix: FaultId | null;
      /** A set failed without a named fault: say what good looks like. */
      sayGood: boolean;
      /** New or sharp pain led here: time to look at what hurts, before anything is set up. */
      lookFirst: boolean;
      /** Last time its load or blocks were changed, and now it is as written: to be set up back. */
      restored: boolean;
      /** Of what was handed over to an athlete alone: its dose, rests and own question. */
      homework?: true;
    }
  /** A question that is not about a check or set. */
  | {
      do: 'ask';
      prompt: PromptId;
      about: 'pain-number' | 'pain-kind' | 'end-session';
      area: Area | null;
    }
  /** How much an area hurt the morning after it was done last, or since. */
  | { do: 'ask'; prompt: PromptId; about: 'pain-morning'; area: Area; daysAgo: number }
  | { do: 'end'; reason: EndReason };

/** A step with the rule that chose it (RULES.md) and the sentence that is spoken. */
export interface Decision {
  step: Step;
  /** Id in RULES.md, such as `2.1`. */
  rule: string;
  /** A plain spoken sentence: "two held sets: up to the bell hinge". */
  because: string;
  /** What begins next, where the reason ends something and does not say it: "now the hinge". */
  then: string | null;
  area: Area | null;
  /** Check or drill id where it came from, or null. */
  from: string | null;
  /** Check or drill id it goes to, or null at the end. */
  to: string | null;
  by: 'rules' | 'coach';
}

/** How an area stands. */
export interface AreaState {
  area: Area;
  outcome: AreaOutcome;
  /** Last rung held; 0 is below rung 1; null where no ladder was climbed. */
  rung: number | null;
  /** The drill that held it, for homework; null where none did. */
  drill: DrillId | null;
}

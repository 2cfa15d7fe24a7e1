/**
 * A session is a log. Entries are never changed; undo and correction are entries too.
 * What to do next is a pure function of the routine and the log (deciding/).
 */
import type { Area, AreaOutcome, Side, Way } from './areas';
import type { Athlete } from './athlete';
import type { AngleTool, Finding, Load, PainKind, RedFlag } from './findings';
import type { HomeworkDay } from './handover/progressDay';
import type { Command, Reading, Reply, Verdict } from './hearing/reply';
import type { CheckId, DrillId, EquipmentId, PromptId, RoutineId } from './script';

/** Coaches may overrule any decision by these; `target` belongs to `go-to`. */
export type OverruleCommand = Extract<
  Command,
  'again' | 'skip' | 'next' | 'back' | 'lighter' | 'heavier' | 'go-to'
>;

/**
 * How much is said, most first. `learning`: every set-up as it is written, and the why of each
 * decision; `normal`: what is known already is not said again; `tones`: sets are cued by tones and
 * counts. Pain, warnings, cautions, offers and what ends the session are spoken in each.
 */
export const WORDS = ['learning', 'normal', 'tones'] as const;
export type Words = (typeof WORDS)[number];

export type EndReason = 'completed' | 'stopped' | 'red-flag' | 'replies-ended';

/** How the words of a finding were taken: heard text and confidence 0 to 1, or by hand. */
export interface Source {
  by: 'voice' | 'hand';
  text: string;
  confidence: number;
}

/** What an entry says happened. */
export type Fact =
  | {
      type: 'started';
      routine: RoutineId;
      language: string;
      way: Way;
      /** Wall time, ISO 8601 with offset; everything after counts in `atSeconds`. */
      startedAt: string;
      settings: SessionSettings;
      /** Whose session it is, by the id of people/person.ts; nobody named where left out. */
      person?: string | undefined;
      /** Equipment that is not in this gym; none where left out. */
      missing?: EquipmentId[] | undefined;
      /** Drills that the coach allowed alone; none where left out. */
      allowedAlone?: DrillId[] | undefined;
      /** What is known of the athlete and the bell; nothing where left out. */
      athlete?: Athlete | undefined;
      /** What spoken angles are read with; by eye where left out. */
      angleTool?: AngleTool | undefined;
      /** The word after which alone replies counted; none where left out. */
      callWord?: string | undefined;
      /** What the bell of the bell hinge stands on; null where the blocks at hand are not enough. */
      blockHeightMillimetres?: number | null | undefined;
      /** What a coach handed over and what of it is done now; left out where it is no homework. */
      homework?: HomeworkDay | undefined;
    }
  /** A question opened; after a crash it is opened again. */
  | { type: 'asked'; prompt: PromptId; side: Side | null }
  | {
      type: 'heard';
      prompt: PromptId;
      text: string;
      verdict: Verdict;
      reply: Reply | null;
      /** 0 to 1; 1 where left out. */
      confidence?: number;
      /** What was said of the other side in the same breath. */
      and?: Reply;
      /** The other of two readings that were offered together. */
      other?: Reading;
    }
  | ({
      type: 'finding';
      prompt: PromptId;
      check: CheckId | null;
      drill: DrillId | null;
      load: Load | null;
      source: Source;
      /** Pain was meant but its number not said ("same", where the other side hurt). */
      asksPain?: boolean;
      /**
       * The lower leg from upright as the load passed the knee, whole degrees, at its worst: told
       * by the phone as a level, and confirmed.
       */
      shinDegrees?: number;
    } & Finding)
  /** Follows a finding with pain. `pain: 'unanswered'` is never taken as little. */
  | { type: 'pain-number'; pain: number | 'unanswered'; source: Source | null }
  | { type: 'pain-kind'; kind: PainKind | 'unanswered'; source: Source | null }
  /**
   * How much an area hurt the morning after it was done last, or later, 0 to 10; its kind follows
   * as `pain-kind`. `unanswered` is never taken as little (RULES.md, chapter 15).
   */
  | { type: 'morning'; area: Area; pain: number | 'unanswered'; source: Source | null }
  | { type: 'red-flag'; flag: RedFlag; prompt: PromptId; source: Source }
  | { type: 'overrule'; command: OverruleCommand; target: string | null; source: Source }
  /** "Stop": silent at once, the question kept open; only `end-answered` with true ends. */
  | { type: 'halted'; source: Source }
  | { type: 'end-answered'; end: boolean; source: Source }
  | { type: 'paused'; source: Source }
  | { type: 'resumed'; source: Source }
  /** So much is said from the next decision on. */
  | { type: 'words'; words: Words; source: Source }
  /** Takes back the entry of that id (and what depended on it falls away in the fold). */
  | { type: 'undone'; entry: string; source: Source }
  | {
      type: 'decision';
      rule: string;
      because: string;
      area: Area | null;
      from: string | null;
      to: string | null;
      by: 'rules' | 'coach';
    }
  | { type: 'outcome'; area: Area; outcome: AreaOutcome; rung: number | null }
  | { type: 'ended'; reason: EndReason }
  /**
   * After the session a finding is put right by hand. What was said stays in the record; from now
   * on it counts as this. Always of the finding itself, also where that was corrected before: the
   * last one counts (RULES.md, chapter 14).
   */
  | ({
      type: 'corrected';
      /** Id of the finding. */
      entry: string;
      /** Which side of a finding that was said of both; null: all of it. */
      of: Side | null;
      prompt: PromptId;
      check: CheckId | null;
      drill: DrillId | null;
      load: Load | null;
      /** 0 to 10, `unanswered` where there was pain without a number, null where none was said. */
      pain: number | 'unanswered' | null;
      painKind: PainKind | 'unanswered' | null;
      /** Wall time, ISO 8601 with offset. */
      correctedAt: string;
      source: Source;
    } & Omit<Finding, 'pain'>);

export type FactType = Fact['type'];

/** An entry: a fact with its name and its time in the session. */
export type Entry = Fact & {
  /** `session:device:seq`. */
  id: string;
  /** Seconds since the session started; never falls. */
  atSeconds: number;
};

export type EntryOf<T extends FactType> = Extract<Entry, { type: T }>;

/** What a coach may set for one session. */
export interface SessionSettings {
  /** Angle from which an overhead check may pass, degrees. Default 155. */
  passLineDegrees: number;
  /** Known pain up to this goes on; above, back a rung. Default 2. */
  painGoesOnUpTo: number;
  /** Pain above this refers the area. Default 5. */
  painRefersAbove: number;
  /** Minutes an area may take. Default 25. */
  areaMinutes: number;
  /** Sets a ladder may take. Default 12. */
  ladderSets: number;
  /** How much is said. Default normal. */
  words: Words;
}

export const DEFAULT_SETTINGS: SessionSettings = {
  passLineDegrees: 155,
  painGoesOnUpTo: 2,
  painRefersAbove: 5,
  areaMinutes: 25,
  ladderSets: 12,
  words: 'normal',
};

/**
 * The shape of everything that is spoken, asked and graded. Files under scripts-cues fill it
 * (read by src/cues alone); the domain only receives it.
 */
import type { Area, Way } from './areas';
import type { Fault, FaultId } from './faults';
import type { Load, Result } from './findings';
import type { Vocabulary } from './hearing/vocabulary';
import type { WarmUp } from './warmUp/warmUp';

export type CheckId = string;
export type DrillId = string;
export type RoutineId = string;
export type EquipmentId = string;

/** A thing that a drill or check needs; see en/equipment.yaml. */
export interface Equipment {
  id: EquipmentId;
  /** As spoken: "a kettlebell". */
  name: string;
  /** What does as well and is in every room: its lack keeps nobody from a drill. */
  orElse?: string | undefined;
}

/** `check/<id>`, `set/<id>`, `pain/how-much`, `pain/kind`, `confirm` or `idle`. */
export type PromptId = string;

/** One thing that happens in a check or set, in order. Times in seconds. */
export type CueStep =
  | { do: 'say'; text: string; thenSeconds?: number | undefined }
  /** A long exhale, counted aloud second by second so that nobody holds a breath (4 to 8 s). */
  | { do: 'exhale'; seconds: number; text?: string | undefined }
  | { do: 'hold'; seconds: number; text?: string | undefined }
  /** Repetitions; the count comes from the dose. `pauseAtKnee` is on the way down, up, or both. */
  | {
      do: 'reps';
      downSeconds: number;
      upSeconds: number;
      pauseAtKnee?:
        | {
            seconds: number;
            on: ('down' | 'up')[];
            /** The rep turns at the knee, so the pause comes at the end of the way down. */
            isBottom?: boolean | undefined;
          }
        | undefined;
      /** A long exhale counted aloud on the way down of each rep, in place of `downSeconds`. */
      exhaleSeconds?: number | undefined;
      /** Normal breaths taken at the far point of each rep. */
      breathsAtBottom?: number | undefined;
      /** Said before the first rep. */
      text?: string | undefined;
    }
  | {
      do: 'rest';
      seconds: number;
      text?: string | undefined;
      /** Normal breaths taken in it; two after each run of long exhales. */
      breaths?: number | undefined;
    };

/**
 * One line of a set-up; with `thenSeconds` it takes time to do, such as lying down or taking the
 * bar. "Ready" cuts that time short.
 */
export type SetUpLine = string | { text: string; thenSeconds: number };

/** The words of a line of a set-up. */
export const textOf = (line: SetUpLine): string => (typeof line === 'string' ? line : line.text);

/** One test position inside an area. */
export interface CheckScript {
  id: CheckId;
  area: Area;
  /** As spoken: "the unloaded hinge". */
  name: string;
  sided: boolean;
  loaded: boolean;
  /** A coach's hands or eyes are needed: alone it is `not-tested`. */
  needsCoach: boolean;
  /** Where a phone strapped on tells the angle of the hold; nowhere where left out. */
  level?: 'upper-arm' | undefined;
  /** One of these is enough; empty where nothing is needed. */
  equipment: EquipmentId[];
  /** One idea a line; each under ten seconds. */
  setUp: SetUpLine[];
  /** The shorter set-up of a second try, side or retest. */
  setUpAgain: SetUpLine[];
  /** Seconds given to get into place after the set-up, cut short by "ready". */
  settleSeconds: number;
  /** How often each `reps` step is done. Default 1. */
  reps?: number | undefined;
  steps: CueStep[];
  ask: string;
  faults: FaultId[];
  caution: string;
}

/** One corrective exercise. */
export interface DrillScript {
  id: DrillId;
  area: Area;
  /** As spoken: "the bell hinge". */
  name: string;
  sided: boolean;
  loaded: boolean;
  /** Alone it is done only where the coach allowed it; false where left out. */
  aloneOnlyIfAllowed?: boolean | undefined;
  /** All of these are needed. */
  equipment: EquipmentId[];
  /** What else to use for it; the drill stays the same. */
  instead: string[];
  /** Sets and reps for training and homework; a readiness session moves on after two held sets. */
  dose: { sets: number; reps?: number | undefined; breaths?: number | undefined };
  setUp: SetUpLine[];
  setUpAgain: SetUpLine[];
  settleSeconds: number;
  steps: CueStep[];
  ask: string;
  /** Asked in its place of an athlete alone, who can tell: yes is held, no is short. */
  selfCheck?: string | undefined;
  /** What good looks like; said when a set failed without a named fault. */
  good: string;
  /** One fix cue a fault; the order is the priority when several are heard. */
  fixes: { fault: FaultId; cue: string }[];
  /** How the drill is made easier, or null where it cannot be. */
  easier: { load: Load; cue: string } | null;
  heavier: { cue: string } | null;
  loadGuidance: string;
  caution: string;
}

/** Which rung an area starts at: the lowest rung of every entry that applies. */
export interface LadderEntry {
  rung: number;
  checks: CheckId[];
  /** Any failing result where left out. */
  results?: Result[] | undefined;
  /** Applies to these faults; where left out, to any finding of those checks. */
  faults?: FaultId[] | undefined;
}

/**
 * The drills of one area in order of demand; rung 1 is `rungs[0]`. Alternates stand in, in their
 * order, where the drill cannot be done.
 */
export interface Ladder {
  area: Area;
  rungs: { drill: DrillId; alternates?: DrillId[] | undefined }[];
  entry: LadderEntry[];
}

export type RoutineItem =
  { do: 'checks'; area: Area } | { do: 'ladder'; area: Area } | { do: 'retest'; area: Area };

/** An ordered list of checks, ladders and retests that somebody runs. */
export interface Routine {
  id: RoutineId;
  name: string;
  ways: Way[];
  items: RoutineItem[];
}

/** Sentences of Sayso itself, by key, with {placeholders}; see en/lines.yaml. */
export type Lines = Record<string, string>;

/** Everything of one language, checked and joined. Order in the records is file order. */
export interface CueBook {
  language: string;
  checks: Record<CheckId, CheckScript>;
  drills: Record<DrillId, DrillScript>;
  equipment: Record<EquipmentId, Equipment>;
  ladders: Partial<Record<Area, Ladder>>;
  routines: Record<RoutineId, Routine>;
  /** Timed, for a group; no routine has the id of one. */
  warmUps: Record<RoutineId, WarmUp>;
  faults: Record<FaultId, Fault>;
  vocabulary: Vocabulary;
  lines: Lines;
}

/** Checks of an area in the order they are asked (file order). */
export const checksOf = (book: CueBook, area: Area): CheckScript[] =>
  Object.values(book.checks).filter((check) => check.area === area);

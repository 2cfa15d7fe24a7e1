import type { Area, Side, Way } from '../areas';
import type { FaultId } from '../faults';
import { routineBegun, type DayTask, type HomeworkDay } from '../handover/progressDay';
import type { Load, PainKind, Result } from '../findings';
import type { EndReason, EntryOf, SessionSettings } from '../log';
import {
  checksOf,
  type CheckId,
  type CheckScript,
  type CueBook,
  type DrillId,
  type EquipmentId,
  type Routine,
} from '../script';

/** What was said of one side of a check or set. */
export interface Answer {
  result: Result;
  faults: FaultId[];
  /** Id of the finding that said it, where one did. */
  entry?: string;
  /** Held by a correction alone: as good as not tested until a retest is held (rule 14.4). */
  isUnseen?: boolean;
}

/** One side of a check (side null where it has none). */
export interface Slot {
  check: CheckId;
  side: Side | null;
  /** Its name in a round. */
  key: string;
}

/** What became of a slot so far. */
export interface Trial {
  /** Tries made, 0 to 3. */
  tries: number;
  answer: Answer | null;
}

/** Trials of one round of checks, by slot. */
export type Round = Map<string, Trial>;

/** One stay on a rung. */
export interface Visit {
  drill: DrillId;
  /** The set to do now, from 1. */
  set: number;
  heldInRow: number;
  fails: number;
  load: Load;
  eased: boolean;
  fix: FaultId | null;
  sayGood: boolean;
  lookFirst: boolean;
  /** Sides of the present set that are answered. */
  sides: Partial<Record<Side, Answer>>;
}

/**
 * Why a ladder is over: `pain` is not tested again. Of homework: `dose`, all of it is done;
 * `unanswered`, how the morning after was is not known.
 */
export type ClimbEnd = 'top' | 'failed' | 'pain' | 'cap' | 'coach' | 'dose' | 'unanswered';

/** The way up (and down) one ladder. */
export interface Climb {
  rung: number;
  visit: Visit;
  /** The rung held last; 0 is below rung 1. */
  lastHeld: number;
  /** The drill that held it. */
  lastHeldDrill: DrillId | null;
  /** Sets done on the whole ladder. */
  sets: number;
  steppedBackFrom: Set<number>;
  /** Drills of the rungs that new or sharp pain ended: never done again. */
  over: Set<DrillId>;
  ended: ClimbEnd | null;
}

export interface AreaCourse {
  area: Area;
  /** Its checks, in the order they are asked. */
  all: CheckScript[];
  checks: Round;
  retests: Round;
  climb: Climb | null;
  referred: boolean;
  /** After pain: nothing loaded any more in this area. */
  unloadedOnly: boolean;
  /** After it: rungs below this one may be done with an unloaded stand-in (rule 1.13). */
  standInsBelow: number;
  hurt: boolean;
  /** Seconds without pauses and halts. */
  activeSeconds: number;
  timeUp: boolean;
  /** What is done of it today; null where this is no homework. */
  task: DayTask | null;
  /** What the morning after bars, whatever is corrected; null where it bars nothing. */
  afterMorning: 'refer' | 'back' | null;
}

/** How much an area hurt the morning after, once its kind is known. */
export interface Morning {
  area: Area;
  number: number | 'unanswered';
  kind: PainKind | 'unanswered' | null;
}

/** A finding with pain that still needs its number or kind. */
export interface OpenPain {
  finding: EntryOf<'finding'>;
  /** Pain was said, even where neither number nor kind was. */
  said: boolean;
  number: number | 'unanswered' | null;
  kind: PainKind | 'unanswered' | null;
}

/**
 * Where a finding was counted when it was said, so that one that is corrected is counted anew in
 * the same place. `nothing`: what led to a ladder stood, or it was of what was not at hand.
 */
export type Counted = { area: Area; pain: OpenPain | null } & (
  | {
      as: 'check';
      retest: boolean;
      /** The side that was asked, where none was said. */
      asked: Side | null;
      answers: { slot: Slot; answer: Answer | null }[];
    }
  | { as: 'set'; visit: Visit; set: number; rung: number }
  | { as: 'nothing' }
);
export type CountedCheck = Extract<Counted, { as: 'check' }>;

/** Which rule chose, and what its sentence is filled with. */
export interface Reason {
  rule: string;
  /** Key of the sentence after `because.`. */
  key: string;
  values: Record<string, string | number>;
  by: 'rules' | 'coach';
  area: Area | null;
  /** A merely passing reason gives way to that of the next part of the routine. */
  passing: boolean;
}

/** Where a session stands: the log folded up. Made anew for each question, never shared. */
export interface Course {
  book: CueBook;
  routine: Routine;
  way: Way;
  settings: SessionSettings;
  /** Equipment that is not in this gym. */
  missing: readonly EquipmentId[];
  /** Drills that the coach allowed alone. */
  allowedAlone: readonly DrillId[];
  /** The routine's item at hand; as many as there are items when all are done. */
  item: number;
  areas: Map<Area, AreaCourse>;
  /** After squat or hinge pain above the line: nothing loaded in either. */
  loadedBarred: boolean;
  /** Findings were corrected after the session, so its way was made by others than count now. */
  isRecounted: boolean;
  /** The slot that the coach wants asked now. */
  focus: Slot | null;
  /** Slots answered in this item, for "back". */
  trail: Slot[];
  /** Drills that were set up in this session, with the load that each was left with. */
  setUp: Map<DrillId, Load>;
  pain: OpenPain | null;
  /** What was handed over to an athlete alone; null where this is no homework. */
  homework: HomeworkDay | null;
  /** Areas of which the morning after is still to be asked, in their order. */
  mornings: Area[];
  /** The answer of which the kind is still to be asked. */
  morning: Morning | null;
  /** In the order in which they were said. */
  counted: Counted[];
  /** The area at hand when a red flag was heard. */
  flagged: Area | null;
  paused: boolean;
  halted: boolean;
  ended: EndReason | null;
  atSeconds: number;
  from: string | null;
  reason: Reason;
  /** What the mornings of other areas changed, told before the reason. */
  also: Reason[];
  /** What the next part of the routine begins with, where the reason does not say it. */
  then: Reason | null;
}

export const MOST_TRIES = 3;

/** The rules of squat and hinge are joined: pain above the line in one bars load in both. */
const JOINED: readonly Area[] = ['squat', 'hinge'];
export const isJoined = (area: Area): boolean => JOINED.includes(area);

export const because = (
  rule: string,
  key: string,
  values: Reason['values'] = {},
  more: Partial<Pick<Reason, 'by' | 'area' | 'passing'>> = {},
): Reason => ({ rule, key, values, by: 'rules', area: null, passing: false, ...more });

/** The course of a session that has just started. Throws where its routine cannot be run. */
export function openCourse(book: CueBook, started: EntryOf<'started'>): Course {
  const routine = routineBegun(book, started);
  const { homework = null } = started;
  if (routine === undefined) {
    const known = Object.keys(book.routines).join(', ');
    throw new Error(`There is no routine "${started.routine}". Choose one of: ${known}.`);
  }
  for (const { do: what, area } of routine.items) {
    if (what === 'ladder' && book.ladders[area] === undefined) {
      throw new Error(`Routine "${routine.id}" needs a ladder for ${area}: add it to the scripts.`);
    }
  }
  const areas = new Map(routine.items.map(({ area }) => [area, openArea(book, area)]));
  const begun = (homework?.tasks ?? []).filter(({ before }) => before !== null);
  return {
    book,
    routine,
    way: started.way,
    settings: started.settings,
    missing: started.missing ?? [],
    allowedAlone: started.allowedAlone ?? [],
    item: 0,
    areas,
    loadedBarred: false,
    isRecounted: false,
    focus: null,
    trail: [],
    setUp: new Map(),
    pain: null,
    homework,
    mornings: begun.map(({ area }) => area),
    morning: null,
    counted: [],
    flagged: null,
    paused: false,
    halted: false,
    ended: null,
    atSeconds: started.atSeconds,
    from: null,
    reason: because('10.1', 'begin', {}, { passing: true }),
    also: [],
    then: null,
  };
}

const openArea = (book: CueBook, area: Area): AreaCourse => ({
  area,
  all: checksOf(book, area),
  checks: new Map(),
  retests: new Map(),
  climb: null,
  referred: false,
  unloadedOnly: false,
  standInsBelow: Infinity,
  hurt: false,
  activeSeconds: 0,
  timeUp: false,
  task: null,
  afterMorning: null,
});

/** The area of the item at hand, or null when all are done. */
export function areaAtHand(course: Course): AreaCourse | null {
  const item = course.routine.items[course.item];
  return item === undefined ? null : (course.areas.get(item.area) ?? null);
}

/** Whether pain in squat or hinge bars load in this area, wherever it came. */
export const isBarredByJoined = ({ loadedBarred }: Course, { area }: AreaCourse): boolean =>
  loadedBarred && isJoined(area);

/** Whether something loaded may still be done in an area. */
export const mayLoad = (course: Course, at: AreaCourse): boolean =>
  !at.unloadedOnly && !isBarredByJoined(course, at);

/** Whether a piece of equipment, or what does as well, is in this gym. */
export const isThere = ({ book, missing }: Course, id: EquipmentId): boolean =>
  !missing.includes(id) || book.equipment[id]?.orElse !== undefined;

/** The area's name as spoken. */
export const nameOf = (book: CueBook, area: Area): string => book.lines[`area.${area}`] ?? area;

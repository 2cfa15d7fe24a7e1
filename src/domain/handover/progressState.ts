/** Where the homework of one area stands between two sessions, and what may be done of it. */
import { isJoined } from '../deciding/course';
import type { Area } from '../areas';
import type { Load } from '../findings';
import type { CueBook, DrillId, DrillScript } from '../script';
import type { Handover, HandoverTask } from './handover';
import type { DayTask, DoneBefore, LeftWhy, TaskWhy } from './progressDay';
import { LOAD_RANK, mostLoad } from './progressLoad';

export interface Stand {
  drill: DrillId;
  rung: number;
  load: Load;
}

/** One area over the days. */
export interface AreaProgress {
  handed: HandoverTask;
  /** What comes next without a step up. */
  at: Stand;
  why: TaskWhy;
  /** What was done last, on `day`, a calendar date; null before the first time. */
  did: Stand | null;
  day: string | null;
  /** The highest rung done on each date. */
  doneOn: Map<string, number>;
  /** Every set of that day held, without pain. */
  isHeld: boolean;
  /** The date on which it was told last how it was the morning after. */
  askedOn: string | null;
  isReferred: boolean;
  /** The lowest rung that hurt more than goes on: nothing there or above any more. */
  hurtFrom: number;
  /** After such pain: nothing loaded any more. */
  isUnloadedOnly: boolean;
  /** How often each rung was stepped back from. */
  backFrom: Map<number, number>;
}

/** What holds for all areas. */
export interface Progress {
  book: CueBook;
  handover: Handover;
  areas: AreaProgress[];
  isWarned: boolean;
  /** Pain in squat or hinge bars load in both. */
  isLoadBarred: boolean;
}

/** A rung that was stepped back from so often is not gone up to again alone. */
const BACKS_MOST = 2;

/** Before the first time. Throws where a task names a drill that its ladder does not have. */
export function beginProgress(book: CueBook, handover: Handover): Progress {
  const areas = handover.tasks.map((handed): AreaProgress => {
    const { area, drill, load } = handed;
    const rung = rungsOf(book, area).findIndex((drills) => drills.includes(drill)) + 1;
    if (rung === 0) throw new Error(`The ladder of the ${area} has no drill "${drill}".`);
    return {
      handed,
      at: { drill, rung, load },
      why: 'handed-over',
      did: null,
      day: null,
      doneOn: new Map(),
      isHeld: false,
      askedOn: null,
      isReferred: false,
      hurtFrom: Infinity,
      isUnloadedOnly: false,
      backFrom: new Map(),
    };
  });
  return { book, handover, areas, isWarned: false, isLoadBarred: false };
}

/** The drills of each rung of a ladder, its own first. */
const rungsOf = (book: CueBook, area: Area): DrillId[][] =>
  (book.ladders[area]?.rungs ?? []).map(({ drill, alternates }) => [drill, ...(alternates ?? [])]);

export function scriptOf({ book }: Progress, id: DrillId): DrillScript {
  const script = book.drills[id];
  if (script === undefined) throw new Error(`There is no drill "${id}".`);
  return script;
}

/** Why a drill may not be done alone as things stand, the gravest reason; null where it may. */
function barOf(progress: Progress, state: AreaProgress, id: DrillId, rung: number) {
  const { handover, book } = progress;
  const script = scriptOf(progress, id);
  const { area } = state.handed;
  const isJoinedBar = progress.isLoadBarred && isJoined(area);
  const isUnloaded = state.isUnloadedOnly || isJoinedBar;
  const own = rungsOf(book, area)[rung - 1]?.[0];
  // A stand-in without load is still nearer to what hurt than a rung that never has any (1.13).
  const standsIn = isJoinedBar && own !== undefined && scriptOf(progress, own).loaded;
  if (rung >= state.hurtFrom || (isUnloaded && (script.loaded || standsIn))) return 'pain';
  if (script.aloneOnlyIfAllowed && !handover.allowedAlone.includes(id)) return 'alone';
  if (mostOf(progress, state, id) === null) return 'load';
  const isThere = script.equipment.every(
    (one) => !handover.missing.includes(one) || book.equipment[one]?.orElse !== undefined,
  );
  return isThere ? null : 'equipment';
}

const mostOf = (progress: Progress, { handed }: AreaProgress, id: DrillId): Load | null => {
  const { handover, book } = progress;
  return mostLoad(book.drills, handed, scriptOf(progress, id), handover.allowedAlone);
};

/** No more than that of the drill under what was handed over. */
export function capped(progress: Progress, state: AreaProgress, stand: Stand): Stand {
  const most = mostOf(progress, state, stand.drill);
  return most !== null && LOAD_RANK[stand.load] > LOAD_RANK[most]
    ? { ...stand, load: most }
    : stand;
}

/** The first drill of a rung that may be done, the given one before the others. */
function firstOn(progress: Progress, state: AreaProgress, rung: number, first?: DrillId) {
  const drills = rungsOf(progress.book, state.handed.area)[rung - 1] ?? [];
  const inOrder = drills.toSorted((one, other) => Number(other === first) - Number(one === first));
  return inOrder.find((id) => barOf(progress, state, id, rung) === null);
}

/** What may be done at a stand, or the nearest below it; null where nothing is left. */
export function settled(progress: Progress, state: AreaProgress, wanted: Stand): Stand | null {
  for (let { rung } = wanted; rung >= 1; rung -= 1) {
    const drill = firstOn(progress, state, rung, rung === wanted.rung ? wanted.drill : undefined);
    if (drill === undefined) continue;
    if (drill === wanted.drill) return capped(progress, state, wanted);
    return { drill, rung, load: mostOf(progress, state, drill) ?? 'unloaded' };
  }
  return null;
}

/** What is done of an area on that date, or why nothing is. */
export function taskOn(
  progress: Progress,
  state: AreaProgress,
  today: string,
): DayTask | { area: Area; why: LeftWhy } {
  const { area } = state.handed;
  if (progress.isWarned) return { area, why: 'warning-sign' };
  if (state.isReferred) return { area, why: 'referred' };
  const wanted = wantedOn(progress, state, today);
  const stand = settled(progress, state, wanted);
  if (stand === null) {
    const { rung } = wanted;
    return { area, why: barOf(progress, state, wanted.drill, rung) ?? 'pain' };
  }
  const isOther = stand.drill !== wanted.drill;
  const other = state.day === null || stand.rung === wanted.rung ? 'instead' : 'back';
  const may = rungsOf(progress.book, area)
    .slice(0, stand.rung)
    .flatMap((drills, at) => drills.filter((id) => barOf(progress, state, id, at + 1) === null));
  return {
    area,
    ...stand,
    why: isOther ? other : wanted.why,
    may,
    before: beforeOn(state, today),
  };
}

function wantedOn(
  progress: Progress,
  state: AreaProgress,
  today: string,
): Stand & { why: TaskWhy } {
  const { at, why, day } = state;
  if (day === null) return { ...at, why };
  if (today <= day) {
    // A second time on a calendar day is never higher; west of the date line it may be the day before.
    const most = state.doneOn.get(today) ?? Infinity;
    const lower = at.rung > most ? settled(progress, state, { ...at, rung: most }) : null;
    return lower === null
      ? { ...at, why: why === 'same' ? 'same-day' : why }
      : { ...lower, why: 'same-day' };
  }
  if (!state.isHeld) return { ...at, why };
  const most = mostOf(progress, state, at.drill);
  if (most !== null && LOAD_RANK[at.load] < LOAD_RANK[most]) {
    return { ...at, load: most, why: 'full-load' };
  }
  const rung = at.rung + 1;
  const isTooOften = (state.backFrom.get(rung) ?? 0) >= BACKS_MOST;
  const drill = isTooOften ? undefined : firstOn(progress, state, rung);
  if (drill === undefined) return { ...at, why: 'waits' };
  return { drill, rung, load: mostOf(progress, state, drill) ?? 'unloaded', why: 'up' };
}

/** What was done on a day before, where it was not told today how the morning after was. */
function beforeOn({ did, day, askedOn }: AreaProgress, today: string): DoneBefore | null {
  if (did === null || day === null || today <= day) return null;
  if (askedOn !== null && askedOn >= today) return null;
  return { ...did, daysAgo: daysFrom(day, today) };
}

const MILLISECONDS_A_DAY = 24 * 3600 * 1000;

/** Calendar days from one date to another. */
const daysFrom = (day: string, other: string): number =>
  Math.round((Date.parse(other) - Date.parse(day)) / MILLISECONDS_A_DAY);

/** What a session left behind of each area, told by a few of its entries, so that a list of people opens without reading whole logs. */
import type { Area, AreaOutcome } from '../areas';
import { findingsOf } from '../deciding/corrected';
import { live } from '../deciding/reading';
import { isNew } from '../deciding/newPain';
import type { EndReason, Entry, EntryOf } from '../log';
import type { CheckId, DrillId } from '../script';

/** How an area stood at the end of a session; `rung` is the last held, null where none was climbed. */
export interface AreaLeft {
  area: Area;
  outcome: AreaOutcome;
  rung: number | null;
}

/** No id of a check or drill. */
export const ELSEWHERE = '';

/** What a session left. */
export interface Left {
  areas: AreaLeft[];
  /**
   * Checks and drills with pain that was new or sharp, or whose kind was not said (rule 13.14);
   * `ELSEWHERE` where these entries do not tell at which.
   */
  newPainAt: (CheckId | DrillId)[];
  /** There was a warning sign (rule 13.8), whether the session ended on it or was broken off. */
  isWarned: boolean;
}

/** A session by its head, with what it left. */
export interface SessionLeft extends Left {
  head: {
    session: string;
    routine?: string;
    /** ISO 8601 with offset. */
    startedAt: string;
    ended: EndReason | null;
    person: string | null;
  };
}

const TYPES: readonly Entry['type'][] = [
  ...(['started', 'outcome', 'pain-number', 'pain-kind', 'red-flag', 'undone', 'ended'] as const),
  'corrected',
];

/**
 * Whether `leftBy` needs this entry: a start, an end, an outcome, pain, a warning sign, an undo or
 * a correction. A session with a correction is needed whole.
 */
export const tellsWhatIsLeft = (entry: Entry): boolean =>
  TYPES.includes(entry.type) || (entry.type === 'finding' && hurts(entry));

const hurts = ({ result, pain, asksPain }: EntryOf<'finding'>): boolean =>
  result === 'pain' || asksPain === true || pain !== null;

/**
 * What these entries of one session leave, in their order; others than those of `tellsWhatIsLeft`
 * change nothing, unless something was corrected. The last outcome of an area counts. Where the
 * session did not end and something was taken back after it, the area is unfinished: the outcome
 * may have been taken back with it.
 */
export function leftBy(entries: readonly Entry[]): Left {
  const hasEnded = entries.some(({ type }) => type === 'ended');
  const areas = new Map<Area, AreaLeft>();
  for (const entry of entries) {
    if (entry.type === 'outcome') {
      const { area, outcome, rung } = entry;
      areas.set(area, { area, outcome, rung });
    } else if (entry.type === 'undone' && !hasEnded) {
      for (const [area, left] of areas) areas.set(area, { ...left, outcome: 'unfinished' });
    }
  }
  return {
    areas: [...areas.values()],
    newPainAt: newPainIn(
      entries.some(({ type }) => type === 'corrected') ? entries : entries.filter(tellsWhatIsLeft),
    ),
    isWarned: entries.some(({ type }) => type === 'red-flag'),
  };
}

function newPainIn(telling: readonly Entry[]): string[] {
  const at = new Set<string>();
  for (const { check, drill, result, pain, painKind } of findingsOf(telling)) {
    const isUntold = painKind === null && (pain === null ? result === 'pain' : pain > 0);
    if (isNew(painKind) || isUntold) at.add(check ?? drill ?? ELSEWHERE);
  }
  // A kind may follow a result that told of no pain, which is not among these entries.
  let awaits = false;
  for (const entry of live(telling)) {
    if (entry.type === 'finding') awaits = true;
    if (entry.type !== 'pain-kind') continue;
    if (!awaits && isNew(entry.kind)) at.add(ELSEWHERE);
    awaits = false;
  }
  return [...at];
}

import type { Entry, EntryOf } from '../log';
import { live } from '../deciding/reading';

/** Entries that something is decided from; a decision is told after one of them, or at the start. */
const DECIDING: readonly Entry['type'][] = [
  'started',
  'finding',
  'pain-number',
  'pain-kind',
  'morning',
  'red-flag',
  'overrule',
  'halted',
  'end-answered',
  'undone',
];

/**
 * The decisions that count, in order: one that came of something taken back falls away with it,
 * and so does its telling again after the undo.
 */
export function decisionsOf(entries: readonly Entry[]): EntryOf<'decision'>[] {
  const alive = new Set(live(entries).map(({ id }) => id));
  const kept: EntryOf<'decision'>[] = [];
  let cause: Entry | null = null;
  for (const entry of entries) {
    if (DECIDING.includes(entry.type)) cause = entry;
    if (entry.type !== 'decision') continue;
    const isGone = cause !== null && cause.type !== 'undone' && !alive.has(cause.id);
    const last = kept.at(-1);
    const isToldAgain = cause?.type === 'undone' && last !== undefined && isSame(last, entry);
    if (!isGone && !isToldAgain) kept.push(entry);
  }
  return kept;
}

const isSame = (one: EntryOf<'decision'>, other: EntryOf<'decision'>): boolean =>
  one.rule === other.rule &&
  one.because === other.because &&
  one.from === other.from &&
  one.to === other.to;

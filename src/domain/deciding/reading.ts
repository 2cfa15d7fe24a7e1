import type { Side } from '../areas';
import type { PainKind } from '../findings';
import type { Entry, EntryOf, FactType } from '../log';
import type { CueBook, PromptId } from '../script';

/** What `undo` may take back; a red flag, a stop and a pause stay. */
const UNDOABLE: readonly FactType[] = [
  ...(['finding', 'pain-number', 'pain-kind', 'morning', 'overrule'] as const),
];

/** What settles an open question (or makes it another one). */
const SETTLES: readonly FactType[] = [
  'finding',
  'pain-number',
  'pain-kind',
  'morning',
  'overrule',
  'undone',
  'red-flag',
  'ended',
];

const isPainDetail = (entry: Entry): entry is EntryOf<'pain-number'> | EntryOf<'pain-kind'> =>
  entry.type === 'pain-number' || entry.type === 'pain-kind';

/** Whether a detail of pain came in the same words as the entry it follows. */
const isSameBreath = (entry: Entry, detail: Entry): boolean =>
  isPainDetail(detail) &&
  detail.source !== null &&
  'source' in entry &&
  entry.source !== null &&
  entry.atSeconds === detail.atSeconds &&
  entry.source.text === detail.source.text;

/**
 * The entries that count: those taken back by `undone` fall away, and with a finding its details
 * of pain. What cannot be undone stays, whatever an `undone` names.
 */
export function live(entries: readonly Entry[]): Entry[] {
  const gone = new Set<string>();
  entries.forEach((entry, at) => {
    if (entry.type !== 'undone') return;
    const target = entries.findIndex(({ id }, index) => id === entry.entry && index < at);
    const undone = entries[target];
    if (undone === undefined || !UNDOABLE.includes(undone.type)) return;
    gone.add(undone.id);
    for (const later of entries.slice(target + 1, at)) {
      if (!isPainDetail(later) && UNDOABLE.includes(later.type)) break;
      const isWhole = undone.type === 'finding' || undone.type === 'morning';
      const falls = isWhole ? isPainDetail(later) : isSameBreath(undone, later);
      if (falls) gone.add(later.id);
    }
  });
  if (gone.size === 0) return entries.filter(({ type }) => type !== 'undone');
  return entries.filter(({ id, type }) => type !== 'undone' && !gone.has(id));
}

/** A finding with what was answered about its pain after it. */
export type FindingTold = EntryOf<'finding'> & { painKind: PainKind | 'unanswered' | null };

/**
 * Findings that were not taken back, as they were said, in order, each with the number (0 to 10)
 * and the kind of its pain, also where those were asked for after it. A number that stayed
 * unanswered leaves `pain` null.
 */
export function toldOf(entries: readonly Entry[]): FindingTold[] {
  const found: FindingTold[] = [];
  for (const entry of live(entries)) {
    const last = found.at(-1);
    if (entry.type === 'finding') found.push({ ...entry, painKind: null });
    else if (last === undefined) continue;
    else if (entry.type === 'pain-number' && entry.pain !== 'unanswered') last.pain ??= entry.pain;
    else if (entry.type === 'pain-kind') last.painKind ??= entry.kind;
  }
  return found;
}

/**
 * The entry that `undo` takes back now, or null where there is none. Words that gave several
 * entries at once are taken back by their first.
 */
export function undoable(_book: CueBook, entries: readonly Entry[]): Entry | null {
  const left = live(entries).filter(({ type }) => UNDOABLE.includes(type));
  let at = left.length - 1;
  let last = left[at];
  if (last === undefined) return null;
  for (let before = left[at - 1]; before !== undefined; before = left[at - 1]) {
    if (!isSameBreath(before, last) || before.type === 'overrule') break;
    last = before;
    at -= 1;
  }
  return last;
}

/** Whether a pause lasts. */
export const isPaused = (entries: readonly Entry[]): boolean =>
  entries.findLast(({ type }) => type === 'paused' || type === 'resumed')?.type === 'paused';

/** Whether "stop" was heard and the question that follows it is not answered. */
export const isHalted = (entries: readonly Entry[]): boolean =>
  entries.findLast(({ type }) => type === 'halted' || type === 'end-answered')?.type === 'halted';

export interface OpenQuestion {
  prompt: PromptId;
  side: Side | null;
  /** When it first opened, seconds from the start of the session. */
  atSeconds: number;
}

/**
 * The question that was asked and is not yet answered, or null. "Stop" keeps it open: once the
 * end is declined, the question that stood before is open again.
 */
export function openQuestion(entries: readonly Entry[]): OpenQuestion | null {
  let open: OpenQuestion | null = null;
  let ending: OpenQuestion | null = null;
  for (const entry of entries) {
    if (entry.type === 'asked') {
      const { prompt, side, atSeconds } = entry;
      const before: OpenQuestion | null = prompt === 'confirm' ? ending : open;
      const isSame: boolean = before?.prompt === prompt && before.side === side;
      const question: OpenQuestion = isSame && before ? before : { prompt, side, atSeconds };
      if (prompt === 'confirm') ending = question;
      else open = question;
    } else if (entry.type === 'end-answered') {
      ending = null;
      if (entry.end) open = null;
    } else if (SETTLES.includes(entry.type)) {
      open = null;
      if (entry.type === 'red-flag' || entry.type === 'ended') ending = null;
    }
  }
  return ending ?? open;
}

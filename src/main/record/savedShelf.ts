import { keptText } from '../keptText';

/** Keeps on this device when the whole record was saved last, so that the coach can be asked to. */
export interface SavedShelf {
  /** ISO 8601 with offset; null where it never was, or that is not known. */
  load(): string | null;
  save(at: string): void;
}

/** In the page's storage. */
export function createSavedShelf(storage: () => Storage): SavedShelf {
  const kept = keptText(storage, 'sayso-record-saved');
  return {
    load() {
      const text = kept.load();
      return text === null || Number.isNaN(Date.parse(text)) ? null : text;
    },
    save: (at) => kept.save(at),
  };
}

/** A week of sessions is as much as may be lost with a device. */
const DUE_DAYS = 7;
const DAY_MILLISECONDS = 86_400_000;

/**
 * Whether this is a moment to ask for saving: there is a session since it was saved last, and the
 * first of those, or the last saving, is a week old. `startedAts`: of all sessions, ISO 8601 with
 * offset. A clock that was set back asks no sooner.
 */
export function isSavingDue(
  savedAt: string | null,
  startedAts: readonly string[],
  nowMilliseconds: number,
): boolean {
  const saved = savedAt === null ? -Infinity : Date.parse(savedAt);
  const since = startedAts.map((at) => Date.parse(at)).filter((at) => at > saved);
  if (since.length === 0) return false;
  const from = savedAt === null ? Math.min(...since) : saved;
  return nowMilliseconds - from >= DUE_DAYS * DAY_MILLISECONDS;
}

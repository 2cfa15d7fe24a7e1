import type { Entry, EntryOf } from '../log';

/** Entries that leave an offer standing. */
const NOTES: readonly Entry['type'][] = ['decision', 'outcome', 'words'];

/**
 * The result that was offered for a yes or a no and not answered yet, or null: nothing but notes
 * came after it. Pain is never offered: it counts at once.
 */
export function openOffer(entries: readonly Entry[]): EntryOf<'heard'> | null {
  for (const entry of [...entries].reverse()) {
    if (entry.type === 'heard') {
      if (entry.reply?.command === 'no') return null;
      if (entry.verdict === 'confirm' && entry.reply?.result != null) return entry;
    } else if (!NOTES.includes(entry.type)) return null;
  }
  return null;
}

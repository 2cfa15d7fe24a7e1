import { nameless, nameWords } from '../domain/people/nameless';
import type { HoldingRecords } from './keepTrying';

/**
 * The same records, into which no word of the names comes: those of the people that this device
 * keeps, as they are at that moment. `isOfTrade`: words that are replies too ("left"), which say
 * nothing of anybody and stay.
 */
export function leavingNamesOut(
  records: HoldingRecords,
  names: () => readonly string[],
  isOfTrade: (word: string) => boolean,
): HoldingRecords {
  const words = () => new Set([...nameWords(names())].filter((word) => !isOfTrade(word)));
  return {
    ...records,
    append: (entry, done) => records.append(nameless(entry, words()), done),
    addAll: (entries) => {
      const those = words();
      return records.addAll(entries.map((entry) => nameless(entry, those)));
    },
  };
}

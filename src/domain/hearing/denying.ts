import { means, type Segment } from './segments';
import { isRefusal } from './signs';
import type { Vocabulary } from './vocabulary';

/** "No" or "not". */
export const isNo = (vocabulary: Vocabulary, segments: Segment[], index: number): boolean =>
  isRefusal(vocabulary, segments, index) || means(segments[index], 'negators');

/** A negation reaches over small words to what it denies, never over punctuation. */
export function deniedAt(vocabulary: Vocabulary, segments: Segment[], index: number): boolean {
  let began = false;
  for (let at = index; at > 0; at--) {
    if (segments[at]?.after) return false;
    const before = segments[at - 1];
    if (!before) return false;
    if (isRefusal(vocabulary, segments, at - 1)) return !began;
    if (means(before, 'negators')) return true;
    if (means(before, 'askedOf')) began = true;
    const small = ['fillers', 'polite', 'place', 'side', 'between', 'unsure'] as const;
    if (before.number !== null || !small.some((role) => means(before, role))) return false;
  }
  return false;
}

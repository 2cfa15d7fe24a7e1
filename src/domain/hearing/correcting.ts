import { isBelowZero } from './counting';
import { means, type Segment } from './segments';
import { isRefusal } from './signs';
import { corrected, isEmpty, stated, type Asked, type Statement } from './statement';
import type { Vocabulary } from './vocabulary';

/** Reads an utterance in which the speaker may correct himself ("one forty, no, one fifty"). */
export function correctedStatement(
  vocabulary: Vocabulary,
  segments: Segment[],
  asked: Asked,
): Statement {
  const cuts = segments.flatMap((_, index) =>
    isCorrection(vocabulary, segments, index) ? [index] : [],
  );
  const stretches = [-1, ...cuts].map((from, at) =>
    stated(vocabulary, segments.slice(from + 1, cuts[at] ?? segments.length), asked),
  );
  return stretches.reduce((before, later) => (isEmpty(later) ? before : corrected(before, later)));
}

/** A correcting phrase, or a "no" that a value follows or that commas set apart. */
function isCorrection(vocabulary: Vocabulary, segments: Segment[], index: number): boolean {
  const segment = segments[index];
  const next = segments[index + 1];
  if (!segment || !next || index === 0) return false;
  if (means(segment, 'corrections')) return true;
  const isApart = vocabulary.talk.refusalsApart.includes(segment.text);
  if (!isApart && !isRefusal(vocabulary, segments, index)) return false;
  if (segment.after && next.after) return true;
  if (isBelowZero(vocabulary, segments, index + 1)) return false;
  if (next.number !== null || means(next, 'side')) return true;
  // Where "no" is "not" too, a result after it is denied.
  return means(next, 'result') && (!isApart || next.after);
}

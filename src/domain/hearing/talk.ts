import { means, type Segment } from './segments';

/**
 * Where talk that is not meant for Sayso begins: an order to the athlete, a question, or words
 * addressed to somebody. Segment index of its clause, or null where there is none.
 */
export function talkFrom(segments: Segment[]): number | null {
  let clause = 0;
  let opening = true;
  for (let index = 0; index < segments.length; index++) {
    const segment = segments[index];
    if (!segment) break;
    if (segment.after) {
      clause = index;
      opening = true;
    }
    if (means(segment, 'addressing')) return clause;
    if (opening && isOpening(segments, index)) return clause;
    if (means(segment, 'joins') || means(segment, 'praise')) {
      if (!opening) clause = index;
      opening = true;
    } else if (!means(segment, 'polite')) opening = false;
  }
  return null;
}

function isOpening(segments: Segment[], index: number): boolean {
  const segment = segments[index];
  const named = segments[index - 1];
  // "Nice hinge" names what was praised.
  if (!segment?.after && means(named, 'praise') && means(segment, 'fillers')) return false;
  const next = segments[index + 1];
  // "Hinge was clean" tells of it.
  if (means(segment, 'fillers') && (means(next, 'telling') || means(next, 'asking'))) return false;
  // "Close, but the hips drifted" grades.
  if (next?.after && means(segment, 'state') && (means(next, 'joins') || means(next, 'part')))
    return false;
  if (means(segment, 'orders') || means(segment, 'questions')) return true;
  return means(segment, 'asking') && next?.after === false && means(next, 'askedOf');
}

import type { Side } from '../areas';
import { deniedAt } from './denying';
import { means, type Segment } from './segments';
import type { Vocabulary } from './vocabulary';

/** Without sides "sits right back" and "left the bar behind" name none; "shifted right" does. */
function isNoSide(
  { sideVerbs, adjectivesStand }: Vocabulary,
  segments: Segment[],
  index: number,
): boolean {
  const [before, segment, next] = [segments[index - 1], segments[index], segments[index + 1]];
  if (segment?.by !== 'word' || segment.text.includes(' ') || !next || next.after) return false;
  if (sideVerbs.includes(segment.text)) return means(before, 'joins') && means(next, 'askedOf');
  // "Goes right back into the heels" goes nowhere else.
  const isAdverb = means(next, 'state') || means(next, 'fault');
  const told = !isAdverb && (means(before, 'state') || means(before, 'fault'));
  return (
    index > 0 &&
    !segment.after &&
    !told &&
    !means(before, 'askedOf') &&
    !isOwned(adjectivesStand === 'before' ? next : before)
  );
}

/** "Right knee", "rodilla derecha". */
const isOwned = (owner: Segment | undefined): boolean =>
  means(owner, 'part') || means(owner, 'place');

const GRADES = ['result', 'fault', 'state', 'part'] as const;

/** "Right, left one forty" is left: the first "right" agrees. */
export function sidesIn(
  vocabulary: Vocabulary,
  segments: Segment[],
  sided: boolean,
): (Side | 'both')[] {
  // "More on the left leg" names a side, "the bar left the legs" none.
  const owners = vocabulary.talk.askedOf;
  const found = segments.flatMap((segment, index) =>
    segment.meanings.flatMap((meaning) => {
      if (!sided && isNoSide(vocabulary, segments, index)) return [];
      const agrees = means(segment, 'polite');
      if (meaning.is === 'side') return [{ side: meaning.side, agrees, index }];
      const words = meaning.is === 'fault' || meaning.is === 'state' ? segment.text.split(' ') : [];
      return (['left', 'right'] as const).flatMap((side) =>
        words.some(
          (word, at) =>
            word === vocabulary.sides[side].readback && owners.includes(words[at - 1] ?? ''),
        )
          ? [{ side, agrees, index }]
          : [],
      );
    }),
  );
  // "The left, not the right" names one.
  const told = found.filter(({ index }) => !deniedAt(vocabulary, segments, index));
  const said = told.length > 0 ? told : found;
  const [first, ...others] = said;
  const apart = segments[1]?.after === true && !sided;
  // "Right clear, left ribs flared" grades the right.
  const graded = segments
    .slice(1, others[0]?.index ?? 1)
    .some((each) => each.number !== null || GRADES.some((is) => means(each, is)));
  const agreed = first?.index === 0 && first.agrees && !graded && (others.length > 0 || apart);
  return [...new Set((agreed ? others : said).map(({ side }) => side))];
}

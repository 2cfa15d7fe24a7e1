import type { Side } from '../areas';
import type { CueBook } from '../script';
import { NO_REPLY, type Reply } from './reply';
import { means, type Segment } from './segments';
import { isHarm, type Understood } from './understood';

/** Both results, offered together; pain and red flags alone, since they do not wait. */
export function eachSide(
  book: CueBook,
  segments: Segment[],
  weigh: (stretch: Segment[]) => Understood,
): Understood | null {
  const [one, other] = sideStretches(segments)?.map(weigh) ?? [];
  if (!one || !other) return null;
  const harm = [one, other].find(({ reply }) => isHarm(reply));
  if (harm) return { ...harm, verdict: 'accept' };
  const isSaid = (test: (segment: Segment) => boolean) => segments.some(test);
  const like = other.reply.result === null && isSaid((each) => isLike(book.vocabulary, each));
  const common = one.reply.result === null && isSaid(isOfBoth);
  const [first, and] = [gradedBy(one, common && other), gradedBy(other, like && one)];
  if (first.side === null || first.result === null) return null;
  // "Left clean, right next" tells of the left alone.
  if (and.result === null && and.angleDegrees === null)
    return { reply: first, verdict: 'confirm', sure: 1 };
  return and.side !== null && and.result !== null
    ? { reply: first, and, verdict: 'confirm', sure: 1 }
    : null;
}

const gradedBy = ({ reply }: Understood, by: Understood | false): Reply =>
  by ? { ...reply, result: by.reply.result, faults: by.reply.faults } : reply;

const isOfBoth = ({ meanings }: Segment): boolean =>
  meanings.some((meaning) => meaning.is === 'side' && meaning.side === 'both');

/** "Right the same", "the right too". */
const isLike = ({ same }: CueBook['vocabulary'], segment: Segment): boolean =>
  means(segment, 'likewise') || same.say.some((phrase) => segment.text.startsWith(phrase));

/** What was said of which side cannot be told, so one is asked for; pain does not wait. */
export const oneSideFirst = (understood: Understood): Understood =>
  isHarm(understood.reply)
    ? understood
    : { reply: NO_REPLY, verdict: 'confirm', sure: 1, asks: 'one-side' };

/**
 * The stretches of an utterance that tell of one side each, in the order they were said ("left
 * limited, right pass"); null where it tells of one side, or where they cannot be told apart.
 */
function sideStretches(segments: Segment[]): [Segment[], Segment[]] | null {
  const named = segments.flatMap((segment, index) =>
    sideIn(segment).map((side) => ({ side, index })),
  );
  // "Right, left one forty limited": the first "right" agrees.
  const [first, second] = named.length > 2 && means(segments[0], 'polite') ? named.slice(1) : named;
  if (!first || !second || first.side === second.side) return null;
  const ahead = segments.slice(0, first.index).every(isSmall);
  const cut = ahead ? second.index : lastBreak(segments, first.index, second.index);
  if (cut === null) return null;
  const from = named[0] === first ? 0 : first.index;
  const later = segments.slice(cut);
  const mixed = later.some((segment) => sideIn(segment).includes(first.side));
  return mixed ? null : [segments.slice(from, cut), later.map(ofOne)];
}

const sideIn = ({ meanings }: Segment): Side[] =>
  meanings.flatMap((meaning) =>
    meaning.is === 'side' && meaning.side !== 'both' ? [meaning.side] : [],
  );

/** "Left one forty, right one sixty, both pass": the number is of the right alone. */
const ofOne = (segment: Segment): Segment => ({
  ...segment,
  meanings: segment.meanings.filter((meaning) => meaning.is !== 'side' || meaning.side !== 'both'),
});

const isSmall = (segment: Segment): boolean =>
  means(segment, 'fillers') || means(segment, 'polite') || means(segment, 'praise');

/** The comma or joining word after one side before which the other's stretch begins. */
function lastBreak(segments: Segment[], from: number, to: number): number | null {
  for (let at = to; at > from; at--) {
    const segment = segments[at];
    if (segment?.after || means(segment, 'joins')) return at;
  }
  return null;
}

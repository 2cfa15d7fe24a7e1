import type { Side } from '../areas';
import { NO_REPLY, type Reply } from '../hearing/reply';
import type { Entry, EntryOf } from '../log';
import type { CueBook } from '../script';
import { slotsOf, trialOf } from './checking';
import { placeOf, type Place } from './place';
import { findingsOf } from './corrected';
import type { Course } from './course';
import { courseOf } from './walking';

const SIDES: readonly Side[] = ['left', 'right'];
const otherOf = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** The sides of the check or set at hand that have an answer in this round or set. */
export function answeredSides(book: CueBook, log: readonly Entry[]): Side[] {
  const course = courseOf(book, log);
  const place = placeOf(course);
  return place === null ? [] : SIDES.filter((side) => isAnswered(course, place, side));
}

function isAnswered({ book }: Course, place: Place, side: Side): boolean {
  if (place.do === 'set') return place.climb.visit.sides[side] !== undefined;
  const script = book.checks[place.slot.check];
  const round = place.retest ? place.at.retests : place.at.checks;
  const slot = script && slotsOf(script).find((one) => one.side === side);
  return slot !== undefined && trialOf(round, slot).answer !== null;
}

/** What "same" repeats: the finding and the side it is said of now; else the side that lacks one. */
export type Same =
  { like: EntryOf<'finding'>; side: Side } | { lacks: Side } | { lacks: 'other-side' };

/**
 * The last finding that "same" repeats at a check or set whose side at hand is `asked`. `said`
 * names either the side that is meant or the one it is like; which, the log tells. `lacks` is the
 * side without a finding, or `other-side` where there are no sides.
 */
export function sameAs(
  book: CueBook,
  log: readonly Entry[],
  { prompt, side: asked }: { prompt: string; side: Side | null },
  said: Side | 'both' | null,
): Same {
  if (asked === null) return { lacks: 'other-side' };
  const answered = answeredSides(book, log);
  const last = (side: Side) =>
    answered.includes(side)
      ? findingsOf(log).findLast(
          (one) => one.prompt === prompt && (one.side === side || one.side === 'both'),
        )
      : undefined;
  const other = otherOf(asked);
  // "Same on the left" at the right: the left is like the right, or else the right like the left.
  const onOther = said === other ? last(asked) : undefined;
  if (onOther !== undefined) return { like: onOther, side: other };
  const like = last(other);
  return like === undefined ? { lacks: other } : { like, side: asked };
}

/** Whether a finding came with pain, by number, by kind or by word. */
export const hasPain = ({ result, pain, asksPain }: EntryOf<'finding'>): boolean =>
  result === 'pain' || (pain ?? 0) > 0 || asksPain === true;

/** The reply that repeats a finding for a side; pain is never repeated, only spoken of anew. */
export const replyLike = (
  { result, faults, angleDegrees }: EntryOf<'finding'>,
  side: Side,
  pain: Reply['pain'],
): Reply =>
  result === 'pain'
    ? { ...NO_REPLY, same: true, side, result, pain: null }
    : { ...NO_REPLY, same: true, side, result, faults, angleDegrees, pain };

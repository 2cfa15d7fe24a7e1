import { holds, means, type Segment } from './segments';
import type { Vocabulary } from './vocabulary';

/** Numbers up to this count reps where no angle is spoken. */
const MOST_REPS = 10;

/** The angles and the pain that were said in numbers. */
export interface Counted {
  angles: number[];
  painNumbers: number[];
}

/** "A two in the hamstring" is pain: so much of nothing else is in one place of the body. */
export function isPlaced({ numbers }: Vocabulary, segments: Segment[], index: number): boolean {
  const number = segments[index]?.number ?? null;
  const next = segments[index + 1];
  if (number === null || number < 1 || number > 10 || next?.after) return false;
  const place = segments
    .slice(index + 2, index + 5)
    .find((each) => !means(each, 'fillers') && !means(each, 'side'));
  return (
    numbers.inPlace.includes(next?.text.split(' ')[0] ?? '') &&
    place !== undefined &&
    means(place, 'place')
  );
}

/** "Minus two" is impossible, whatever it counts. */
export const isBelowZero = (
  { numbers }: Vocabulary,
  segments: readonly Segment[],
  index: number,
): boolean => {
  const before = segments[index - 1];
  const number = segments[index];
  return before !== undefined && number?.after === false && numbers.minus.includes(before.text);
};

const isOnRep = ({ numbers }: Vocabulary, before: Segment | undefined): boolean =>
  before !== undefined && numbers.onRep.includes(before.text);

/** "One" that stands for what was named. */
const isOneOf = (segment: Segment, before: Segment | undefined): boolean =>
  means(segment, 'fillers') &&
  (means(before, 'side') || (means(before, 'kind') && !means(before, 'pain')));

/** Which of the numbers are angles and which are pain; the others count something. */
export function numbersIn(
  vocabulary: Vocabulary,
  segments: Segment[],
  pain: { pain: boolean; kind: boolean; only: boolean; angles: boolean },
): Counted {
  const angles: number[] = [];
  const painNumbers: number[] = [];
  segments.forEach((segment, index) => {
    const before = segments[index - 1];
    const next = segments[index + 1];
    if (segment.number === null) {
      const alone = pain.only && vocabulary.numbers.soundsLike[segment.text];
      if (alone && !segments.some(({ number }) => number !== null)) painNumbers.push(alone);
      return;
    }
    // "One sixty, not one sixteen" names one.
    const isDenied = means(before, 'negators') && !segment.after;
    if (isDenied && segments.some((each) => each !== segment && each.number !== null)) return;
    // "His knee hurts, left one", "that one hurts".
    if (segment.number === 1 && !segment.after && isOneOf(segment, before)) return;
    const number = isBelowZero(vocabulary, segments, index) ? -segment.number : segment.number;
    if (means(next, 'of-ten')) painNumbers.push(number);
    else if (means(next, 'degrees')) angles.push(number);
    else if (means(next, 'counted') && !next?.after) return;
    else if (means(before, 'counting') && !segment.after) return;
    // "Elbows bent on six" tells of which repetition.
    else if (isOnRep(vocabulary, before) && !segment.after && number <= MOST_REPS && !pain.pain)
      return;
    else if (pain.only || (pain.pain && number < 20)) painNumbers.push(number);
    // "The usual one" is no number.
    else if (pain.kind && number <= 10) {
      if (!means(segment, 'fillers')) painNumbers.push(number);
    } else if (
      number <= MOST_REPS &&
      (!pain.angles || means(segments[index + 2], 'counted') || holds(next))
    )
      return;
    else if (!(means(segment, 'fillers') && number === 1)) angles.push(number);
  });
  return { angles: [...new Set(angles)], painNumbers: [...new Set(painNumbers)] };
}

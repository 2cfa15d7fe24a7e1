import type { Meaning } from './meanings';
import { ANGLE_DEGREES } from './judging';
import { circumstancesIn, likenessIn, means, type Segment } from './segments';
import { partsOf } from './signs';
import type { Statement } from './statement';

/** No meaning, or a word of counting that counts nothing ("a short week"). */
function isUnknown(segments: Segment[], at: number): boolean {
  const segment = segments[at];
  if (!segment) return false;
  const [two, before, next] = [segments[at - 2], segments[at - 1], segments[at + 1]];
  const counts = ({ is }: Meaning) => is === 'counted' || is === 'counting';
  const counting = segment.meanings.length > 0 && segment.meanings.every(counts);
  const counted = [before, next, two].some((each) => each?.number != null);
  return segment.by === 'unknown' || (counting && !counted);
}

/** A word without meaning stands in the same clause as a result ("he passed his exam"). */
const sharesClause = (segments: Segment[]): boolean =>
  clausesOf(segments).some(
    (each) =>
      each.some((segment) => means(segment, 'result')) && each.some((_, at) => isUnknown(each, at)),
  );

/** "A clean towel": what a result stands before is not graded here. */
export const describes = (
  articles: readonly string[],
  parts: ReadonlySet<string>,
  segments: readonly Segment[],
): boolean =>
  segments.some((segment, at) => {
    const [before, noun] = [segments[at - 1], segments[at + 1]];
    return (
      means(segment, 'result') &&
      !segment.after &&
      !segment.text.includes(' ') &&
      articles.includes(before?.text ?? '') &&
      noun?.after === false &&
      noun.number === null &&
      (noun.meanings.every(({ is }) => is === 'orders') ||
        noun.meanings.some((meaning) => meaning.is === 'part' && !parts.has(meaning.part)))
    );
  });

/** The clauses that name the kind of a pain: what else is told of it does not matter. */
export function ofKind(segments: Segment[]): Segment[] {
  const kinds = clausesOf(segments).filter((each) => each.some((one) => means(one, 'kind')));
  return kinds.length > 0 ? kinds.flat() : segments;
}

/** Segments between punctuation, and between joining words where those part too. */
export function clausesOf(segments: Segment[], parts?: 'joins'): Segment[][] {
  const clauses: Segment[][] = [[]];
  for (const segment of segments) {
    if (segment.after || (parts && means(segment, parts))) clauses.push([]);
    clauses.at(-1)?.push(segment);
  }
  return clauses;
}

/** Counts for less than a word: it is apart from a reply that is understood as a whole. */
const ASIDE = 0.5;
/** More words than this in a clause that is not understood tell of something else. */
const MOST_ASIDE_UNKNOWN_WORDS = 2;

/** "Perfect technique, pass": what grades is understood as a whole, and beside it is little. */
function besides(segments: Segment[]): Set<Segment> {
  const clauses = clausesOf(segments);
  const grades = (each: Segment[]) => each.some((segment) => means(segment, 'result'));
  const isUnderstood = (each: Segment[]) => each.every((_, at) => !isUnknown(each, at));
  if (!clauses.filter(grades).every(isUnderstood) || !clauses.some(grades)) return new Set();
  return new Set(
    clauses
      .filter((each) => !each.some((segment) => means(segment, 'negators')))
      .filter(
        (each) => each.filter((_, at) => isUnknown(each, at)).length <= MOST_ASIDE_UNKNOWN_WORDS,
      )
      .flat(),
  );
}

/** How much of what was said is not understood, weighed against what is, 0 to 1. */
export function unknownShare(segments: Segment[], said: Statement): number {
  const likeness = likenessIn(segments);
  const aside = said.faults.pairs > 0 ? circumstancesIn(segments) : new Set();
  const isAside = (segment: Segment) => aside.has(segment) || likeness.has(segment);
  const apart = besides(segments);
  const unknown = segments
    .map((segment, at) => (isUnknown(segments, at) && !isAside(segment) ? segment : null))
    .reduce((sum, each) => sum + (each === null ? 0 : apart.has(each) ? ASIDE : 1), 0);
  const ofHarm = said.pain || said.redFlags.length > 0;
  const liken = new Set([...likeness].flatMap(partsOf));
  const loose = said.faults.loose.filter((part) => !liken.has(part));
  const dangling = said.faults.pairs === 0 && !ofHarm ? loose.length : 0;
  const known =
    said.results.length +
    said.sides.length +
    said.angles.filter((angle) => angle >= ANGLE_DEGREES.least).length +
    said.painNumbers.length +
    2 * said.faults.pairs +
    2 * said.redFlags.length +
    (said.pain || said.noPain ? 2 : 0) +
    2 * said.kinds.length;
  const missed = unknown + dangling;
  if (missed === 0) return 0;
  if ((known < 2 || missed >= known) && sharesClause(segments)) return 1;
  return missed / (missed + known);
}

import { circumstancesIn, holds, means, type Segment } from './segments';
import type { FaultsSaid } from './signs';
import type { ResultWord } from './vocabulary';

/** Nothing is graded by when a fault came ("the ribs came up as the arms passed"). */
export function withoutCircumstances(segments: Segment[]): Segment[] {
  const circumstances = circumstancesIn(segments);
  return segments.map((segment) => {
    const within = circumstances.has(segment);
    return within
      ? { ...segment, meanings: segment.meanings.filter(({ is }) => is !== 'result') }
      : segment;
  });
}

/** Says that it was no pass. */
export const isFailure = (segment: Segment): boolean =>
  segment.meanings.some(
    (meaning) => meaning.is === 'result' && ['short', 'lost'].includes(meaning.result),
  );

/** The results that were said; of one that was denied, that it was none. */
export function resultsIn(segments: Segment[], denied: (index: number) => boolean): ResultWord[] {
  const found = segments.flatMap((segment, index) =>
    segment.meanings.flatMap((meaning): ResultWord[] =>
      meaning.is !== 'result'
        ? []
        : !denied(index)
          ? [meaning.result]
          : meaning.result === 'short' || meaning.result === 'lost'
            ? []
            : ['failed'],
    ),
  );
  return [...new Set(found)];
}

/**
 * "Kept the position, just short": a pass in words that say nothing of the range. "Pressure held,
 * arms short": of one part only.
 */
export const keptOnly = (segments: Segment[], of?: 'parts'): boolean =>
  segments.every(
    (segment, index) =>
      !holds(segment) || isOfPart(segments, index) || (!of && means(segment, 'keeping')),
  );

/** "Ribs clean" beside a pass. */
const isKept = (segments: Segment[], part: string): boolean =>
  segments.some(
    (segment, index) =>
      holds(segment) &&
      isOfPart(segments, index) &&
      [segments[index - 1], segments[index - 2]].some((each) =>
        each?.meanings.some((meaning) => meaning.is === 'part' && meaning.part === part),
      ),
  );

/** "Pressure held", "the ribs were clean": told of the part right before it. */
function isOfPart(segments: Segment[], index: number): boolean {
  if (segments[index]?.after) return false;
  const before = segments[index - 1];
  if (means(before, 'part')) return true;
  return !before?.after && means(before, 'telling') && means(segments[index - 2], 'part');
}

/** "No ribs flared, pass": the pass tells that no comma was lost. */
export function passed(said: FaultsSaid, results: ResultWord[], segments: Segment[]): FaultsSaid {
  if (results.length !== 1 || results[0] !== 'held') return said;
  const isGraded = (segment: Segment, index: number) =>
    holds(segment) && !isOfPart(segments, index);
  const loose = said.loose.filter(
    (part) => !said.spared.includes(part) && !(segments.some(isGraded) && isKept(segments, part)),
  );
  const isDenied = said.refused.length > 0 && said.faults.every((id) => said.refused.includes(id));
  if (!isDenied) return { ...said, loose };
  return { ...said, loose, faults: [], denied: [...said.denied, ...said.faults], unclear: false };
}

import type { Side } from '../areas';
import type { FaultId } from '../faults';
import type { Result } from '../findings';
import type { SessionSettings } from '../log';
import type { CueBook } from '../script';
import { NO_REPLY, type Asks, type Reply } from './reply';
import type { Statement } from './statement';

/** Spoken angles outside these are asked about, degrees. */
export const ANGLE_DEGREES = { least: 20, most: 200 } as const;

/** The lines of the session that a statement is weighed by. */
export type Lines = Pick<SessionSettings, 'passLineDegrees' | 'painGoesOnUpTo'>;

/** The reply that a statement amounts to, and whether it has to be asked about. */
export interface Judged {
  reply: Reply;
  /** It contradicts itself, is impossible, incomplete or not of this prompt. */
  doubtful: boolean;
  /** Holds a result, pain or fault, not just a side or a number. */
  graded: boolean;
  /** What it says against itself, to be read back. */
  against: 'notAPass' | 'underTheLine' | null;
  asks: Asks | null;
  /** Left and right are told of, and not as one: whose the rest is cannot be told. */
  ofEachSide: boolean;
}

/** Weighs a statement; never settles a contradiction silently, but offers its worse half. */
export function judge(
  book: CueBook,
  said: Statement,
  expected: ReadonlySet<FaultId>,
  { passLineDegrees, painGoesOnUpTo }: Lines,
): Judged {
  const faults = said.faults.faults;
  const spoken = spokenResult(book, said);
  const angle = said.angles.at(-1) ?? null;
  const number = said.painNumbers.length > 0 ? Math.max(...said.painNumbers) : null;
  const possible = number === null || (number >= 0 && number <= 10);
  const hurts = number === null ? said.pain : number !== 0;
  const pain = hurts ? (possible ? number : null) : said.noPain || number === 0 ? 0 : null;
  const stands = spoken !== null && pain !== null && pain <= painGoesOnUpTo;
  const result: Result | null = hurts && pain !== 0 && !stands ? 'pain' : spoken;
  const reply: Reply = {
    ...NO_REPLY,
    side: sideOf(said),
    result,
    faults: faults.filter((fault) => !isJustShort(book, fault, expected)),
    angleDegrees: angle,
    pain,
    painKind: said.kinds[0] ?? null,
    redFlag: said.redFlags[0] ?? null,
  };
  // "Not quite there, short" says which.
  const settled = spoken === 'short' || spoken === 'lost';
  const worded = said.results.filter((word) => word !== 'failed' || !settled);
  const contradicts =
    ((said.results.includes('held') || said.results.includes('not-tested')) && faults.length > 0) ||
    (worded.includes('failed') && faults.length === 0) ||
    (new Set(worded).size > 1 && faults.length === 0) ||
    faults.some((fault) => said.faults.denied.includes(fault)) ||
    (hurts && said.noPain);
  const underTheLine = angle !== null && spoken === 'held' && angle < passLineDegrees;
  const impossible =
    !possible ||
    (angle !== null && (angle < ANGLE_DEGREES.least || angle > ANGLE_DEGREES.most)) ||
    underTheLine;
  const severally = isOfEachSide(said) || said.angles.length > 1 || said.painNumbers.length > 1;
  const foreign = faults.some(
    (fault) => !expected.has(fault) && !isJustShort(book, fault, expected),
  );
  return {
    reply,
    doubtful:
      contradicts ||
      impossible ||
      severally ||
      foreign ||
      said.deniedShort ||
      said.unsure ||
      said.faults.unclear,
    graded: result !== null || pain !== null || said.results.length > 0 || said.deniedShort,
    against:
      said.results.includes('held') && faults.length > 0
        ? 'notAPass'
        : underTheLine
          ? 'underTheLine'
          : null,
    asks: asksOf(said, reply),
    ofEachSide: isOfEachSide(said),
  };
}

/** Where its area has no such fault (the passive lift), short of range is the result alone. */
function isJustShort({ faults }: CueBook, id: FaultId, expected: ReadonlySet<FaultId>): boolean {
  const fault = faults[id];
  if (fault?.kind !== 'range' || expected.has(id)) return false;
  return [...expected].some((other) =>
    faults[other]?.areas.every((area) => fault.areas.includes(area)),
  );
}

/** What would complete a reply without result, pain or red flag. */
function asksOf(
  said: Statement,
  { result, pain, redFlag, side, angleDegrees }: Reply,
): Asks | null {
  if (result !== null || pain !== null || redFlag !== null) return null;
  if (said.results.includes('failed')) return 'limited-or-lost';
  if (said.faults.denied.length > 0 || said.deniedShort) return 'pass';
  return side !== null || angleDegrees !== null ? 'grade' : null;
}

/** Left and right are both told of, and not as one. */
const isOfEachSide = ({ sides }: Statement): boolean =>
  sides.includes('left') && sides.includes('right');

function sideOf(said: Statement): Side | 'both' | null {
  if (isOfEachSide(said)) return null;
  return said.sides.includes('both') ? 'both' : (said.sides[0] ?? null);
}

/** Any position fault is `lost`, a range fault alone `short`; else the worst word that was said. */
function spokenResult(book: CueBook, said: Statement): Exclude<Result, 'pain'> | null {
  const kinds = said.faults.faults.map((fault) => book.faults[fault]?.kind);
  if (kinds.includes('position') || said.results.includes('lost')) return 'lost';
  if (kinds.includes('range') || said.results.includes('short')) return 'short';
  if (said.results.includes('not-tested')) return 'not-tested';
  if (said.results.includes('failed')) return null;
  return said.results.includes('held') ? 'held' : null;
}

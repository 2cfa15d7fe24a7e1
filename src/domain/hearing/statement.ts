import type { Side } from '../areas';
import type { FaultId } from '../faults';
import type { PainKind, RedFlag } from '../findings';
import { isPlaced, numbersIn, type Counted } from './counting';
import { clausesOf } from './covering';
import { deniedAt, isNo } from './denying';
import { isFailure, keptOnly, passed, resultsIn, withoutCircumstances } from './grading';
import type { Meaning } from './meanings';
import { circumstancesIn, means, type Segment } from './segments';
import { sidesIn } from './sides';
import { faultsSaid, guessed, type FaultsSaid } from './signs';
import type { ResultWord, Vocabulary } from './vocabulary';

/** Everything that an utterance states, before it is weighed. */
export interface Statement extends Counted {
  sides: (Side | 'both')[];
  results: ResultWord[];
  /** "Not limited", and no result besides. */
  deniedShort: boolean;
  faults: FaultsSaid;
  /** Degrees were named, so that a number is surely an angle. */
  degrees: boolean;
  /** Pain was named, by a word or by "out of ten". */
  pain: boolean;
  noPain: boolean;
  kinds: PainKind[];
  redFlags: RedFlag[];
  unsure: boolean;
  /** Told as something that was seen ("stayed"), not ordered. */
  told: boolean;
}

/** What a statement needs to know of the prompt it was said at. */
export interface Asked {
  expected: ReadonlySet<FaultId>;
  /** Sides are told one by one here; elsewhere a "right" before a comma agrees. */
  sided: boolean;
  /** A bare number is pain. */
  painNumber: boolean;
  /** Angles are spoken here; elsewhere a small number counts reps. */
  angles: boolean;
  /** A bare kind of pain is wanted. */
  painKind: boolean;
  /** A result is wanted. */
  graded: boolean;
}

/** Reads one stretch of an utterance that holds no correction. */
export function stated(vocabulary: Vocabulary, segments: Segment[], asked: Asked): Statement {
  const denied = (index: number) => deniedAt(vocabulary, segments, index);
  const pains = segments.map(
    (segment, index) =>
      (means(segment, 'pain') || means(segment, 'sharp')) &&
      (!takenByFault(segment, asked) || means(segment, 'pain')) && { denied: denied(index) },
  );
  const ofTen = segments.some((segment) => means(segment, 'of-ten'));
  const kinds = kindsIn(segments, denied);
  const sharp = kinds.includes('sharp') && !asked.painKind;
  const placed = segments.some((_, index) => isPlaced(vocabulary, segments, index));
  const pain = pains.some((each) => each && !each.denied) || ofTen || sharp || placed;
  const redFlags = segments.flatMap((segment, index) =>
    denied(index)
      ? []
      : segment.meanings.flatMap((meaning) => (meaning.is === 'red-flag' ? [meaning.flag] : [])),
  );
  const sides = sidesIn(vocabulary, segments, asked.sided);
  // "Pins and needles in the whole hand" tells of no fault.
  const unharmed =
    redFlags.length > 0
      ? clausesOf(segments, 'joins').flatMap((each) => (each.some(isFlag) ? [] : each))
      : segments;
  const read = faultsSaid(vocabulary, unharmed, asked.expected);
  const told = read.pairs > 0 ? withoutCircumstances(segments) : segments;
  const graded = resultsIn(told, denied);
  const said = passed(read, graded, told);
  const keepsOnly =
    (graded.includes('short') && keptOnly(told)) ||
    ((graded.includes('short') || said.faults.length > 0) && keptOnly(told, 'parts'));
  const results = keepsOnly ? graded.filter((each) => each !== 'held') : graded;
  const deniedShort = segments.some(
    (segment, index) => isFailure(segment) && denied(index) && results.length === 0,
  );
  const numbers = numbersIn(vocabulary, segments, {
    pain: pain || asked.painNumber,
    kind: asked.painKind,
    only: asked.painNumber,
    angles: asked.angles,
  });
  const brief = sides.length + numbers.angles.length > 0 || results.includes('lost');
  const isBeside = brief && said.loose.length === 1;
  const wantsKinds = pain || asked.painKind || asked.painNumber;
  return {
    sides,
    results,
    deniedShort,
    // Of pain a part is its place.
    faults:
      (isBeside || (asked.graded && isJustParts(segments))) &&
      !pain &&
      redFlags.length === 0 &&
      said.pairs === 0
        ? guessed(vocabulary, said, asked.expected, isBeside ? 'beside' : 'parts')
        : said,
    ...numbers,
    degrees: segments.some((segment) => means(segment, 'degrees')),
    pain,
    noPain:
      segments.some((segment) => means(segment, 'no-pain')) ||
      pains.some((each) => each && each.denied) ||
      (asked.painNumber && segments.some((segment) => means(segment, 'nothing'))),
    kinds: wantsKinds ? kinds : [],
    redFlags,
    unsure:
      mayCorrect(vocabulary, segments) ||
      segments.some(
        (segment) => means(segment, 'unsure') && !(said.pairs > 0 && isSame(vocabulary, segment)),
      ) ||
      means(segments.at(-1), 'corrections') ||
      (redFlags.length > 0 && mayBeOfElse(segments)) ||
      (kinds.length > 0 && asked.painKind && segments.some((_, at) => names(segments, at))),
    told: segments.some((segment, index) => segment.tells || isNo(vocabulary, segments, index)),
  };
}

/** "Ribs", "the heels and the knees": where it was seen, once; said again it spurs somebody on. */
const isJustParts = (segments: Segment[]): boolean =>
  new Set(segments.map(({ text }) => text)).size === segments.length &&
  segments.every(
    (segment) =>
      !segment.after && (['part', 'joins', 'askedOf'] as const).some((is) => means(segment, is)),
  );

/** "Popped up" is of the ribs where ribs are asked about, else of the body. */
const takenByFault = (segment: Segment, { expected }: Asked): boolean =>
  segment.meanings.some((meaning) => meaning.is === 'fault' && expected.has(meaning.fault));

/** "Pasa no limitado": where "no" is "not" too and no comma tells, it may take back the result. */
const mayCorrect = ({ talk }: Vocabulary, segments: Segment[]): boolean =>
  segments.some(
    ({ text, after }, index) =>
      !after && talk.refusalsApart.includes(text) && means(segments[index - 1], 'result'),
  );

/** "Knees forward, same as last time" says what it was. */
const isSame = ({ same }: Vocabulary, { text }: Segment): boolean =>
  same.say.some((phrase) => text.startsWith(phrase));

const isFlag = (segment: Segment): boolean => means(segment, 'red-flag');

/** "Dizzy heights": a red flag or a kind of pain is said of something that is not understood. */
function names(segments: Segment[], at: number): boolean {
  const [segment, next] = [segments[at], segments[at + 1]];
  const isSharp = (meaning: Meaning) => meaning.is === 'kind' && meaning.kind === 'sharp';
  const says = segment !== undefined && (isFlag(segment) || segment.meanings.some(isSharp));
  return says && next?.after === false && next.by === 'unknown';
}

/** A red flag of another day, of something else, or when what is not understood happened. */
function mayBeOfElse(segments: Segment[]): boolean {
  const aside = circumstancesIn(segments);
  return segments.some(
    (segment, at) =>
      means(segment, 'past') ||
      names(segments, at) ||
      (aside.has(segment) && segment.by === 'unknown'),
  );
}

function kindsIn(segments: Segment[], denied: (index: number) => boolean): PainKind[] {
  const found = segments.flatMap((segment, index) =>
    segment.meanings.flatMap((meaning): PainKind[] =>
      denied(index)
        ? []
        : meaning.is === 'kind'
          ? [meaning.kind]
          : meaning.is === 'sharp'
            ? ['sharp']
            : [],
    ),
  );
  return (['sharp', 'new', 'known'] as const).filter((kind) => found.includes(kind));
}

/** What was said later stands; what it leaves open keeps what was said before. */
export function corrected(before: Statement, later: Statement): Statement {
  const either = <T>(list: T[], other: T[]) => (list.length > 0 ? list : other);
  const regraded = later.results.length > 0 || later.faults.pairs > 0;
  return {
    ...before,
    sides: either(later.sides, before.sides),
    results: regraded ? later.results : before.results,
    deniedShort: later.deniedShort || (before.deniedShort && !regraded),
    faults: regraded ? later.faults : before.faults,
    angles: either(later.angles, before.angles),
    degrees: later.degrees || before.degrees,
    pain: later.pain || (before.pain && !later.noPain),
    painNumbers: either(later.painNumbers, before.painNumbers),
    noPain: later.noPain || (before.noPain && !later.pain),
    kinds: either(later.kinds, before.kinds),
    redFlags: [...new Set([...before.redFlags, ...later.redFlags])],
    unsure: later.unsure || before.unsure,
    told: later.told || before.told,
  };
}

/** Whether a statement holds anything that could be acted on. */
export const isEmpty = (said: Statement): boolean =>
  said.sides.length + said.results.length + said.faults.pairs + said.angles.length === 0 &&
  said.painNumbers.length + said.kinds.length + said.redFlags.length === 0 &&
  !said.pain &&
  !said.noPain &&
  !said.deniedShort;

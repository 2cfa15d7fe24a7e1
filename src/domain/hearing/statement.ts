import type { Side } from '../areas';
import type { FaultId } from '../faults';
import type { PainKind, RedFlag } from '../findings';
import { circumstancesIn, means, type Segment } from './segments';
import { faultsSaid, guessed, isRefusal, type FaultsSaid } from './signs';
import type { ResultWord, Vocabulary } from './vocabulary';

/** Everything that an utterance states, before it is weighed. */
export interface Statement {
  sides: (Side | 'both')[];
  results: ResultWord[];
  /** "Not limited", and no result besides. */
  deniedShort: boolean;
  faults: FaultsSaid;
  angles: number[];
  /** Degrees were named, so that a number is surely an angle. */
  degrees: boolean;
  /** Pain was named, by a word or by "out of ten". */
  pain: boolean;
  painNumbers: number[];
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
}

/** Numbers up to this count reps where no angle is spoken. */
const MOST_REPS = 10;

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
  const read = faultsSaid(vocabulary, segments, asked.expected);
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
  const wantsKinds = pain || asked.painKind || asked.painNumber;
  return {
    sides,
    results,
    deniedShort,
    // Of pain a part is its place.
    faults: brief && !pain && said.pairs === 0 ? guessed(vocabulary, said, asked.expected) : said,
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
      means(segments.at(-1), 'corrections'),
    told: segments.some((segment, index) => segment.tells || isNo(vocabulary, segments, index)),
  };
}

/** "No ribs flared, pass": the pass tells that no comma was lost. */
function passed(said: FaultsSaid, results: ResultWord[], segments: Segment[]): FaultsSaid {
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

/** "Popped up" is of the ribs where ribs are asked about, else of the body. */
const takenByFault = (segment: Segment, { expected }: Asked): boolean =>
  segment.meanings.some((meaning) => meaning.is === 'fault' && expected.has(meaning.fault));

const isNo = (vocabulary: Vocabulary, segments: Segment[], index: number): boolean =>
  isRefusal(vocabulary, segments, index) || means(segments[index], 'negators');

/** "Pasa no limitado": where "no" is "not" too and no comma tells, it may take back the result. */
const mayCorrect = ({ talk }: Vocabulary, segments: Segment[]): boolean =>
  segments.some(
    ({ text, after }, index) =>
      !after && talk.refusalsApart.includes(text) && means(segments[index - 1], 'result'),
  );

/** A negation reaches over small words to what it denies, never over punctuation. */
function deniedAt(vocabulary: Vocabulary, segments: Segment[], index: number): boolean {
  let began = false;
  for (let at = index; at > 0; at--) {
    if (segments[at]?.after) return false;
    const before = segments[at - 1];
    if (!before) return false;
    if (isRefusal(vocabulary, segments, at - 1)) return !began;
    if (means(before, 'negators')) return true;
    if (means(before, 'askedOf')) began = true;
    const small = ['fillers', 'polite', 'place', 'side', 'between', 'unsure'] as const;
    if (before.number !== null || !small.some((role) => means(before, role))) return false;
  }
  return false;
}

/** Nothing is graded by when a fault came ("the ribs came up as the arms passed"). */
function withoutCircumstances(segments: Segment[]): Segment[] {
  const circumstances = circumstancesIn(segments);
  return segments.map((segment) => {
    const within = circumstances.has(segment);
    return within
      ? { ...segment, meanings: segment.meanings.filter(({ is }) => is !== 'result') }
      : segment;
  });
}

/** "Knees forward, same as last time" says what it was. */
const isSame = ({ same }: Vocabulary, { text }: Segment): boolean =>
  same.say.some((phrase) => text.startsWith(phrase));

const isFailure = (segment: Segment): boolean =>
  segment.meanings.some(
    (meaning) => meaning.is === 'result' && ['short', 'lost'].includes(meaning.result),
  );

function resultsIn(segments: Segment[], denied: (index: number) => boolean): ResultWord[] {
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
const keptOnly = (segments: Segment[], of?: 'parts'): boolean =>
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
  const isAdverb = means(before, 'fillers') && (means(next, 'state') || means(next, 'fault'));
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
function sidesIn(vocabulary: Vocabulary, segments: Segment[], sided: boolean): (Side | 'both')[] {
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
  const [first, ...others] = found;
  const apart = segments[1]?.after === true && !sided;
  // "Right clear, left ribs flared" grades the right.
  const graded = segments
    .slice(1, others[0]?.index ?? 1)
    .some((each) => each.number !== null || GRADES.some((is) => means(each, is)));
  const agreed = first?.index === 0 && first.agrees && !graded && (others.length > 0 || apart);
  return [...new Set((agreed ? others : found).map(({ side }) => side))];
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

/** "Four clean ones" counts. */
const holds = (segment: Segment | undefined): boolean =>
  segment?.meanings.some((meaning) => meaning.is === 'result' && meaning.result === 'held') ??
  false;

/** "A two in the hamstring" is pain: so much of nothing else is in one place of the body. */
function isPlaced({ numbers }: Vocabulary, segments: Segment[], index: number): boolean {
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
  means(segment, 'fillers') && means(before, 'side');

function numbersIn(
  vocabulary: Vocabulary,
  segments: Segment[],
  pain: { pain: boolean; kind: boolean; only: boolean; angles: boolean },
): Pick<Statement, 'angles' | 'painNumbers'> {
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

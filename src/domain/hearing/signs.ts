import type { FaultId } from '../faults';
import { means, type Segment } from './segments';
import type { FaultWords, Vocabulary } from './vocabulary';

/** What was said of faults. */
export interface FaultsSaid {
  faults: FaultId[];
  /** Faults that were denied, or whose opposite was told. */
  denied: FaultId[];
  /** "no ribs flared": a denial or a lost comma. */
  unclear: boolean;
  /** Faults of which that is unclear. */
  refused: FaultId[];
  /** Parts named where nothing at all is said of any. */
  loose: string[];
  /** Those of them that stand after a "no". */
  spared: string[];
  /** How many statements of what happened were understood. */
  pairs: number;
}

interface Named {
  parts: string[];
  /** Named together with the one before ("knees and shins"). */
  joined: boolean;
  /** What was said of it stands before it; more may follow ("rounded back arched"). */
  early: boolean;
  /** Something was said of it. */
  bound: boolean;
  /** "No heels": nothing is wrong with it. */
  refused: boolean;
}

/** A state of a part, judged: the fault it is, or the fault it denies. */
interface Pair {
  fault: FaultId;
  good: boolean;
}

/**
 * Reads faults as what they are about and what happened, in any order, with the reach of a
 * negation: to the next comma, joining word or part.
 */
export function faultsSaid(
  vocabulary: Vocabulary,
  segments: Segment[],
  expected: ReadonlySet<FaultId>,
): FaultsSaid {
  const said: FaultsSaid = {
    faults: [],
    denied: [],
    unclear: false,
    refused: [],
    loose: [],
    spared: [],
    pairs: 0,
  };
  const order = orderOf(vocabulary, expected);
  const taken = new Set<number>();
  let named: Named[] = [];
  let negated = false;
  let refused = false;
  let joined = false;
  let last: string[] = [];
  let likewise = false;
  const isOfOnly = (state: string) => (vocabulary.states[state]?.ofOnlyFault ?? []).length > 0;
  /** `noun`: a bare "no" before it denies it; before a state it may be a lost comma. */
  const note = ({ fault, good }: Pair, noun: boolean) => {
    if (refused && !noun && !negated) {
      said.unclear = true;
      said.refused.push(fault);
    }
    const denied = (negated || (refused && noun)) !== good;
    const list = denied ? said.denied : said.faults;
    if (!list.includes(fault)) list.push(fault);
    said.pairs++;
    if (!good || expected.has(fault)) for (const each of named) each.bound = true;
    joined = false;
  };
  segments.forEach((segment, index) => {
    if (segment.after) negated = refused = joined = false;
    if (means(segment, 'joins')) {
      if (!means(segment, 'between')) negated = refused = false;
      joined = true;
    }
    if (isRefusal(vocabulary, segments, index)) {
      // "Can't get there without arching" tells of an arch.
      if (negated && means(segment, 'negators')) negated = false;
      else refused = true;
    } else if (means(segment, 'negators') || couldNotHold(vocabulary, segments, index))
      negated = true;
    if (taken.has(index)) return;
    likewise ||= last.length > 0 && means(segment, 'likewise');
    const ends = endsClause(segments, index) || isJustPart(segments, index);
    const states = statesOf(segment).filter((state) => ends || !isOfOnly(state));
    const parts = partsOf(segment);
    const open = named.filter(({ bound }) => !bound);
    // "Back arched, lost" grades what was told.
    const grades = means(segment, 'result') && segment.after && ends;
    const more = joined || segment.after || named.some(({ early }) => early);
    const within = open.length > 0 ? open : more && !grades ? named : [];
    const likely =
      means(segment, 'result') || means(segment, 'fillers') ? order.slice(0, 1) : order;
    const behind = states.length > 0 ? bind(likely, within, states) : [];
    const whole = segment.meanings.find((meaning) => meaning.is === 'fault');
    const ahead =
      states.length === 0 ||
      means(segment, 'result') ||
      (open.length > 0 && (behind.length > 0 || isWhere(segments, index)))
        ? null
        : aheadOf(segments, index, order.slice(0, 1), states, states.some(isOfOnly));
    const single = !segment.text.includes(' ');
    if (whole && !(ahead && single) && (open.length === 0 || behind.length === 0)) {
      note({ fault: whole.fault, good: false }, whole.noun);
    } else if (
      states.length > 0 &&
      (parts.length === 0 || (behind.length > 0 && open.length > 0))
    ) {
      if (ahead) {
        taken.add(ahead.index);
        named.push(ahead.named);
      }
      const noun = segment.meanings.some((meaning) => meaning.is === 'state' && meaning.noun);
      const alone =
        (isLoose(segment, named) && !isApart(segment, named)) || isPlaceOfPain(segments, index)
          ? []
          : only(
              order,
              states.filter((state) => vocabulary.states[state]?.alone),
              negated,
            );
      const pairs = ahead ? bind(order, [ahead.named], states) : behind.length > 0 ? behind : alone;
      for (const pair of pairs) note(pair, noun);
      if (pairs.length > 0) last = states;
      if (pairs.length === 0 && refused && noun) said.pairs++;
    } else if (parts.length > 0) {
      if (open.length === 0) {
        if (named.length > 0 && !joined) negated = false;
        named = [];
      }
      named.push({ parts, joined, bound: false, early: false, refused });
      joined = false;
    }
  });
  if (likewise)
    for (const pair of bind(
      order.slice(0, 1),
      named.filter(({ bound }) => !bound),
      last,
    ))
      note(pair, false);
  // "The back was flat but the shins weren't": it is not known what they did.
  if (means(segments.at(-1), 'negators') && said.denied.length > 0 && said.faults.length === 0)
    for (const each of named.filter(({ bound }) => !bound)) {
      const [fault, ...others] = mainlyOf(order[0] ?? [], each.parts[0] ?? '');
      if (fault === undefined || others.length > 0) continue;
      each.bound = said.unclear = true;
      said.faults.push(fault.id);
      said.pairs++;
    }
  if (said.faults.length > 0 && isOneLost(vocabulary, segments, expected, said))
    said.unclear = true;
  const told = segments.some(
    (segment) =>
      (statesOf(segment).length > 0 && !means(segment, 'fillers') && !isLost(segment)) ||
      means(segment, 'praise'),
  );
  said.loose = told
    ? []
    : named.filter(({ bound }) => !bound).flatMap(({ parts }) => parts.slice(0, 1));
  said.spared = named.filter(({ refused: no }) => no).flatMap(({ parts }) => parts.slice(0, 1));
  return said;
}

const isLost = (segment: Segment): boolean =>
  segment.meanings.some((meaning) => meaning.is === 'result' && meaning.result === 'lost');

const orders = new WeakMap<Vocabulary, Map<string, FaultWords[][]>>();

/** The faults that are expected, then all others; made once for each such set. */
function orderOf(vocabulary: Vocabulary, expected: ReadonlySet<FaultId>): FaultWords[][] {
  const made = orders.get(vocabulary) ?? new Map<string, FaultWords[][]>();
  orders.set(vocabulary, made);
  const key = [...expected].sort().join(' ');
  const known = made.get(key);
  if (known !== undefined) return known;
  const order = [
    withOnlyFaults(
      vocabulary,
      vocabulary.faults.filter(({ id }) => expected.has(id)),
    ),
    vocabulary.faults.filter(({ id }) => !expected.has(id)),
  ];
  made.set(key, order);
  return order;
}

/** The faults, each with the states that are its own where no other of them is of that part. */
function withOnlyFaults({ states }: Vocabulary, faults: FaultWords[]): FaultWords[] {
  const signs = Object.entries(states).flatMap(([state, { ofOnlyFault }]) =>
    ofOnlyFault.flatMap((part) => {
      const [only, ...others] = mainlyOf(faults, part);
      return only && others.length === 0 ? [{ only, about: [part], is: [state], isNot: [] }] : [];
    }),
  );
  return faults.map((fault) => {
    const own = signs.flatMap(({ only, ...sign }) => (only === fault ? [sign] : []));
    return own.length > 0 ? { ...fault, signs: [...fault.signs, ...own] } : fault;
  });
}

/** The faults that are of this part first of all, else those that can be of it. */
function mainlyOf(faults: FaultWords[], part: string): FaultWords[] {
  const mainly = faults.filter(({ signs: [sign] }) => sign?.about[0] === part);
  return mainly.length > 0 ? mainly : allOf(faults, part);
}

const allOf = (faults: FaultWords[], part: string): FaultWords[] =>
  faults.filter(({ signs }) => signs.some(({ about }) => about.includes(part)));

/** Nothing follows but when, where or at which angle it was. */
const endsClause = (segments: Segment[], index: number): boolean => {
  const next = segments[index + 1];
  if (next === undefined || next.after) return true;
  if (means(next, 'joins') || means(next, 'circumstances')) return true;
  const isWhere =
    next.number !== null || ['side', 'degrees'].some((is) => means(next, is as 'side'));
  const isSmall = next.text === 'at' && (segments[index + 2]?.number ?? null) !== null;
  // "On the last rep".
  const isWhen = means(next, 'fillers') && next.text.includes(' ') && !means(next, 'part');
  return (isWhere || isSmall || isWhen) && endsClause(segments, index + 1);
};

/** "Couldn't hold the elbows up" tells what was lost. */
function couldNotHold({ talk }: Vocabulary, segments: Segment[], index: number): boolean {
  const [segment, next] = [segments[index], segments[index + 1]];
  const [first = ''] = segment?.text.split(' ') ?? [];
  return (
    segment !== undefined &&
    isLost(segment) &&
    talk.negators.includes(first) &&
    next?.after === false &&
    (means(next, 'part') || means(next, 'askedOf'))
  );
}

/** After this a clause names a part and says no more ("just the ribs"). */
function isJustPart(segments: Segment[], index: number): boolean {
  const next = segments[index + 1];
  const at = means(next, 'askedOf') && !next?.after ? index + 2 : index + 1;
  const part = segments[at];
  return part?.after === false && partsOf(part).length > 0 && endsClause(segments, at);
}

/**
 * A part beside a side or an angle ("left, ribs") is asked about as the one expected fault that can
 * be of it; of `parts` said without more, as the one that is of each first of all.
 */
export function guessed(
  vocabulary: Vocabulary,
  said: FaultsSaid,
  expected: ReadonlySet<FaultId>,
  as: 'beside' | 'parts',
): FaultsSaid {
  const faults = vocabulary.faults.filter(({ id }) => expected.has(id));
  const of = as === 'parts' ? mainlyOf : allOf;
  const each = said.loose.map((part) => of(faults, part).map(({ id }) => id));
  if (each.length === 0 || each.some(({ length }) => length !== 1)) return said;
  const found = [...new Set(each.flat())];
  return { ...said, faults: found, loose: [], unclear: true, pairs: found.length };
}

/** "Knees and back rounded": something is wrong with the knees too, and it is not known what. */
const isOneLost = (
  vocabulary: Vocabulary,
  segments: Segment[],
  expected: ReadonlySet<FaultId>,
  { faults }: FaultsSaid,
): boolean => {
  const about = (segment: Segment | undefined) =>
    vocabulary.faults
      .filter(({ signs }) =>
        signs.some((sign) => partsOf(segment).some((part) => sign.about.includes(part))),
      )
      .map(({ id }) => id);
  const isTold = (id: FaultId) => faults.includes(id);
  return segments.some((segment, index) => {
    const [join, next] = segments
      .slice(index + 1)
      .filter((each) => !means(each, 'askedOf') || statesOf(each).length > 0);
    const isPraised = means(segments[index - 1], 'praise');
    if (!means(join, 'joins') || statesOf(segment).length > 0 || isPraised) return false;
    const named = about(segment);
    return about(next).some(isTold) && !named.some(isTold) && named.some((id) => expected.has(id));
  });
};

/** "Elbows inside the knees" tells where the elbows are. */
const isWhere = (segments: Segment[], index: number): boolean =>
  segments[index]?.tells === false &&
  means(segments[index - 1], 'part') &&
  means(segments[index + 1], 'askedOf');

/** The parts of the body that a segment may name. */
export const partsOf = (segment: Segment | undefined): string[] =>
  (segment?.meanings ?? []).flatMap((meaning) => (meaning.is === 'part' ? [meaning.part] : []));

const statesOf = (segment: Segment): string[] =>
  segment.meanings.flatMap((meaning) => (meaning.is === 'state' ? [meaning.state] : []));

/** A bare "no", as against "not"; where one word is both, by the punctuation after it. */
export const isRefusal = (
  { talk }: Vocabulary,
  segments: readonly Segment[],
  index: number,
): boolean => {
  const [segment, next] = [segments[index], segments[index + 1]];
  const text = segment?.text ?? '';
  // "No the back stayed down" answers somebody.
  const [first = ''] = next?.text.split(' ') ?? [];
  const answers = index === 0 && next?.after === false && talk.askedOf.includes(first);
  if (talk.refusals.includes(text)) return !answers || means(segment, 'negators');
  return talk.refusalsApart.includes(text) && segments[index + 1]?.after === true;
};

/** "Pain on the inside of the knee". */
function isPlaceOfPain(segments: Segment[], index: number): boolean {
  for (let at = index; at > 0; at--) {
    if (segments[at]?.after || means(segments[at - 1], 'joins')) return false;
    if (means(segments[at - 1], 'pain') || means(segments[at - 1], 'sharp')) return true;
  }
  return false;
}

/** The next part in the same clause, where the state makes it an expected fault. */
function aheadOf(
  segments: Segment[],
  index: number,
  order: FaultWords[][],
  states: string[],
  isJust: boolean,
): { index: number; named: Named } | null {
  if (isPlaceOfPain(segments, index)) return null;
  for (let at = index + 1; at < segments.length; at++) {
    const segment = segments[at];
    if (!segment || segment.after || means(segment, 'joins')) return null;
    const parts = partsOf(segment);
    if (parts.length === 0) {
      const small = means(segments[index], 'fillers') && !segments[index]?.tells;
      if (means(segment, 'fillers') && (!small || isJust)) continue;
      return null;
    }
    const named: Named = { parts, joined: false, bound: true, early: true, refused: false };
    return bind(order, [named], states).length > 0 ? { index: at, named } : null;
  }
  return null;
}

/** The pairs of the nearest part (and those joined to it) with any of these states. */
function bind(order: FaultWords[][], named: Named[], states: string[]): Pair[] {
  const pairs: Pair[] = [];
  for (const each of named.toReversed()) {
    const pair = pairOf(order, each.parts, states);
    if (pair) pairs.unshift(pair);
    if (pair && !each.joined) break;
  }
  return pairs;
}

/** A small word, a result, or something said of a part: no state that could stand alone. */
const isLoose = (segment: Segment, named: Named[]): boolean =>
  named.length > 0 || (['fillers', 'result', 'not-pain'] as const).some((is) => means(segment, is));

/** "Bent elbows, flared": set apart by a comma it is of something else. */
const isApart = (segment: Segment, named: Named[]): boolean =>
  segment.after &&
  named.every(({ bound, early }) => bound && early) &&
  !(['fillers', 'result', 'not-pain'] as const).some((is) => means(segment, is));

/** The first expected fault that a state without a part can only be of ("flared"). */
function only(order: FaultWords[][], states: string[], negated: boolean): Pair[] {
  for (const kind of negated ? (['is', 'isNot'] as const) : (['is'] as const)) {
    const fault = order[0]?.find(({ signs }) =>
      signs.some((sign) => sign[kind].some((state) => states.includes(state))),
    );
    if (fault) return [{ fault: fault.id, good: kind === 'isNot' }];
  }
  return [];
}

function pairOf(order: FaultWords[][], parts: string[], states: string[]): Pair | null {
  const shared = (some: string[], others: string[]) => some.some((each) => others.includes(each));
  for (const [strange, faults] of order.entries())
    for (const kind of strange ? (['is'] as const) : (['is', 'isNot'] as const))
      for (const { id, signs } of faults)
        if (signs.some((sign) => shared(sign.about, parts) && shared(sign[kind], states)))
          return { fault: id, good: kind === 'isNot' };
  return null;
}

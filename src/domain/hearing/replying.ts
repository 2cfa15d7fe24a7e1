import type { FaultId } from '../faults';
import type { CueBook } from '../script';
import { correctedStatement } from './correcting';
import { clausesOf, describes, ofKind, unknownShare } from './covering';
import { eachSide, oneSideFirst } from './eachSide';
import { ANGLE_DEGREES, judge, type Judged } from './judging';
import { meaningsOf, type Meaning } from './meanings';
import type { Prompt } from './prompts';
import type { Reply } from './reply';
import { means, segmentsOf, type Segment } from './segments';
import { isEmpty, type Asked, type Statement } from './statement';
import { talkFrom } from './talk';
import { IGNORED, isHarm, type Understood, type UnderstandOptions } from './understood';
import type { Words } from './words';

/** Share of unknown words up to which a reply is acted on, and up to which it is asked about. */
const UNKNOWN = { act: 0.34, ask: 0.5 } as const;

/** A near-homophone was read for what it sounds like. */
const SOUNDS_LIKE = 0.9;

/** Reads what is no command: a result, a fault, pain, a red flag, or what is left of one. */
export function replied(
  book: CueBook,
  asked: Prompt,
  { words, question }: Words,
  options: UnderstandOptions,
): Understood {
  const expected = asked.kind === 'result' ? asked.faults : new Set(Object.keys(book.faults));
  const wants: Asked = {
    expected,
    painNumber: asked.kind === 'pain-number',
    sided: asked.kind !== 'result' || asked.sided,
    painKind: asked.kind === 'pain-kind',
    angles: asked.kind !== 'result' || asked.area === 'overhead',
    graded: asked.kind === 'result',
  };
  const read = (mayMean: (meaning: Meaning) => boolean) => {
    const segments = segmentsOf(book.vocabulary, meaningsOf(book), words, mayMean);
    const talk = question ? 0 : talkFrom(segments);
    const heard = talk === null ? segments : segments.slice(0, talk);
    if (heard.length === 0) return null;
    const said = correctedStatement(book.vocabulary, heard, wants);
    return { segments: heard, said, cut: talk !== null };
  };
  const own = (meaning: Meaning) => meaning.is !== 'fault' || expected.has(meaning.fault);
  // A bare "squatting" where squats are graded is no fault of another area.
  const isTold = (meaning: Meaning) => asked.kind !== 'result' || own(meaning);
  const strange = ({ said }: { said: Statement }) =>
    said.faults.faults.some((fault) => !expected.has(fault)) ||
    said.results.length + said.faults.pairs === 0;
  let found = read(own);
  if (found && strange(found)) {
    const states = statesOf(book, expected);
    const narrow = read(
      (meaning) => own(meaning) && (meaning.is !== 'state' || states.has(meaning.state)),
    );
    if (narrow && !strange(narrow) && narrow.said.faults.pairs >= found.said.faults.pairs)
      found = narrow;
  }
  if (found && found.said.results.length + found.said.faults.pairs === 0) found = read(isTold);
  if (!found || isEmpty(found.said)) return IGNORED;
  if (isOfOther(book, expected, found)) return IGNORED;
  const judged = judge(book, found.said, expected, options);
  const decision = decided(asked, found, judged);
  const sided = asked.kind === 'idle' || (asked.kind === 'result' && asked.sided);
  if (!judged.ofEachSide || !sided || decision.verdict === 'ignore') return decision;
  const weigh = (stretch: Segment[]): Understood => {
    const said = correctedStatement(book.vocabulary, stretch, wants);
    return { reply: judge(book, said, expected, options).reply, verdict: 'confirm', sure: 1 };
  };
  return eachSide(book, found.segments, weigh) ?? oneSideFirst(decision);
}

/** The one result is of something else ("a clean towel"). */
const isOfOther = (
  { vocabulary }: CueBook,
  expected: ReadonlySet<FaultId>,
  { segments, said }: { segments: Segment[]; said: Statement },
): boolean =>
  said.faults.pairs === 0 &&
  !said.pain &&
  said.redFlags.length === 0 &&
  describes(
    vocabulary.goTo.articles,
    new Set(
      vocabulary.faults.flatMap(({ id, signs }) =>
        expected.has(id) ? signs.flatMap(({ about }) => about) : [],
      ),
    ),
    segments,
  );

function decided(
  asked: Prompt,
  { segments, said, cut }: { segments: Segment[]; said: Statement; cut: boolean },
  judged: Judged,
): Understood {
  const { doubtful, graded, against } = judged;
  const reply = asked.kind === 'result' ? judged.reply : ungraded(judged.reply);
  const sure = segments.some(({ by }) => by === 'sounds') ? SOUNDS_LIKE : 1;
  const unknown =
    asked.kind === 'pain-kind'
      ? unknownShare(ofKind(segments), { ...said, faults: { ...said.faults, loose: [] } })
      : unknownShare(segments, said);
  const harm = isHarm(reply);
  // "My heart's pounding and my chest hurts": a clause of it is plain.
  const isPlain = reply.redFlag !== null && isClause(segments, ({ is }) => is === 'red-flag');
  const answers =
    asked.kind === 'pain-number'
      ? reply.pain !== null || said.painNumbers.length > 0
      : asked.kind === 'pain-kind'
        ? reply.painKind !== null || reply.pain !== null
        : false;
  // Work goes on without pain: nothing is to be asked about.
  const painless = asked.kind === 'idle' && reply.pain === 0 && reply.result === null;
  const fits = harm || answers || painless || (asked.kind === 'result' && reply.result !== null);
  const guessed = clausesOf(segments).some(
    (each) =>
      said.results.length > 0 &&
      each.some((one) => one.by === 'sounds' && means(one, 'result')) &&
      each.some((one) => means(one, 'fillers')),
  );
  // A side that is no part of a fault or pain has no place where there are no sides.
  const strange =
    asked.kind === 'result' &&
    !asked.sided &&
    !harm &&
    reply.faults.length === 0 &&
    (reply.side === 'left' || reply.side === 'right');
  const asks =
    doubtful || cut || guessed || strange || !fits || (unknown > UNKNOWN.act && !isPlain);
  const open = judged.asks === 'grade' && unknown > 0;
  const untested = reply.result === 'not-tested' && isClause(segments, isUntested);
  const isTold = untested || isPlain || isConcluded(segments);
  if (
    open ||
    (unknown > UNKNOWN.ask && !isTold) ||
    !isWorthAsking(asked, said, graded || answers || said.kinds.length > 0)
  )
    return IGNORED;
  return { reply, verdict: asks ? 'confirm' : 'accept', sure, against, asks: judged.asks };
}

/** A red flag ends the session: what sounds like a fault beside it is none of a result. */
const ungraded = (reply: Reply): Reply =>
  reply.redFlag === null
    ? reply
    : { ...reply, faults: [], result: reply.result === 'pain' ? 'pain' : null };

/** A clause says this and nothing that is not understood, whatever stands round it. */
const isClause = (segments: Segment[], says: (meaning: Meaning) => boolean): boolean =>
  clausesOf(segments, 'joins').some(
    (each) =>
      each.some(({ meanings }) => meanings.some(says)) && each.every(({ by }) => by !== 'unknown'),
  );

/** "Ribs first then the bar, so lost": after a comma it ends with a grade and no more. */
const isConcluded = (segments: Segment[]): boolean => {
  const [last, ...before] = clausesOf(segments).toReversed();
  return (
    before.length > 0 &&
    last?.[0]?.text !== undefined &&
    means(last[0], 'joins') &&
    last.slice(1).some((each) => means(each, 'result')) &&
    last.every((each) => CONCLUDES.some((is) => means(each, is)))
  );
};
const CONCLUDES = ['joins', 'result', 'fillers', 'unsure'] as const;

const isUntested = (meaning: Meaning): boolean =>
  meaning.is === 'result' && meaning.result === 'not-tested';

/** What can be said of these faults. */
const statesOf = ({ vocabulary }: CueBook, faults: ReadonlySet<FaultId>): Set<string> =>
  new Set(
    vocabulary.faults.flatMap(({ id, signs }) =>
      faults.has(id) ? signs.flatMap(({ is, isNot }) => [...is, ...isNot]) : [],
    ),
  );

/** A side or a number alone is no reply, but together they lack only their grade. */
function isWorthAsking(asked: Prompt, said: Statement, graded: boolean): boolean {
  if (graded || said.redFlags.length > 0) return true;
  if (said.faults.pairs > 0) return said.told || said.faults.unclear;
  // Of an offer, a value alone says what is right.
  if (asked.kind === 'confirm') return said.sides.length + said.angles.length > 0;
  if (asked.kind !== 'result') return said.unsure && said.painNumbers.length > 0;
  const angled = said.angles.some((angle) => angle >= ANGLE_DEGREES.least);
  const overhead = asked.area === 'overhead';
  return (
    said.degrees ||
    (angled && (overhead || said.sides.length > 0)) ||
    (said.unsure && said.sides.length > 0)
  );
}

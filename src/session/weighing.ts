import type { Side } from '../domain/areas';
import type { PromptId } from '../domain/script';
import { answeredSides, replyLike, sameAs } from '../domain/deciding/sides';
import { readbackOf } from '../domain/hearing/readback';
import type { Reading, Reply } from '../domain/hearing/reply';
import { say, sentenceOf } from '../domain/saying';
import type { Step } from '../domain/deciding/step';
import { isPain, type AttemptStep } from './answerFacts';
import { ofOffer, type Settled } from './answeringOffer';
import { completed } from './completing';
import type { SessionContext } from './sessionContext';

/** A reading weighed against what the session has already. */
export type Weighed = Settled & {
  /** The phone as a level told something of it: its angle, or the shin's from upright. */
  measured?: { shinDegrees?: number };
  /** The sentence that offers it, where another than the usual. */
  offers?: string;
  /** "Same", but that side has no finding yet, or there is no other side. */
  lacks?: Side | 'other-side';
};

/** What a reading is weighed by. */
export type Standing = Pick<SessionContext, 'book' | 'log' | 'decision' | 'settings' | 'offered'>;

/**
 * What words alone cannot tell: what is said of an offer is made whole, a grade completes what was
 * said before it, "same" is filled from the other side's finding, and what is said of a side that
 * has a result already, or that was not just worked on, is asked about. Weighing again changes
 * nothing.
 */
export function weighed(standing: Standing, heard: Reading, prompt?: PromptId): Weighed {
  const { book, offered, decision } = standing;
  const step = decision?.step;
  const isOfOffer = prompt === 'confirm' && offered !== null && !asksToEnd(step);
  const settled: Settled = isOfOffer ? ofOffer({ ...standing, offered }, heard) : heard;
  const reading = completed(standing, settled);
  const { reply, other } = reading;
  if (reply === null || (step?.do !== 'check' && step?.do !== 'set')) return withBoth(reading);
  if (other !== undefined) return withBoth(reading);
  const answer = yesOrNo(standing, step, reading, reply, prompt);
  if (answer !== null) return answer;
  if (reply.same) return filled(standing, step, reading, reply);
  if (reading.asks === 'pass' && reply.result === null) return asPass(standing, reading, reply);
  const { side } = reply;
  if (reply.result === null || isPain(reply) || side === null) return reading;
  if (replaces(standing, step, side) && reading.settled !== true) {
    const again = { side: book.vocabulary.sides[side].readback, readback: rest(standing, reply) };
    return offeredAs(standing, reading, reply, say(book.lines, 'confirm.again', again));
  }
  const isStrange =
    step.do === 'set' && step.side !== null && side !== 'both' && side !== step.side;
  return isStrange && reading.settled !== true ? { ...reading, verdict: 'confirm' } : reading;
}

const asksToEnd = (step: Step | undefined): boolean =>
  step?.do === 'ask' && step.about === 'end-session';

/**
 * An athlete alone who is asked for a yes or a no: yes is held, no is short. Where nobody asked for
 * it, a yes or a no to a set is nothing.
 */
function yesOrNo(
  { book }: Standing,
  step: AttemptStep,
  reading: Reading,
  reply: Reply,
  prompt: PromptId | undefined,
): Weighed | null {
  const isPlain = reply.command === 'yes' || reply.command === 'no';
  if (!isPlain || step.do !== 'set' || prompt !== step.prompt) return null;
  const isAsked = step.homework && book.drills[step.drill]?.selfCheck !== undefined;
  if (!isAsked) return { ...reading, verdict: 'ignore', reply: null, readback: null };
  const said: Reply = {
    ...reply,
    command: null,
    result: reply.command === 'yes' ? 'held' : 'short',
  };
  return { ...reading, reply: said, readback: readbackOf(book, said) };
}

/** Two readings are offered in one question. */
const withBoth = (reading: Settled): Weighed =>
  reading.other === undefined
    ? reading
    : { ...reading, offers: `${sentenceOf(reading.readback ?? '')}?` };

/** "No rib flare" names no result: a yes makes it a pass. */
function asPass(standing: Standing, reading: Reading, reply: Reply): Weighed {
  const { book } = standing;
  const pass: Reply = { ...reply, result: 'held' };
  const sentence = say(book.lines, 'confirm.pass', { readback: reading.readback ?? '' });
  return offeredAs(standing, reading, pass, sentence);
}

/** Whether a side other than the one at hand is said, and has an answer. */
export function replaces({ book, log }: Standing, step: AttemptStep, said: Reply['side']): boolean {
  if (step.side === null || said === null || said === step.side) return false;
  return answeredSides(book, log).some(
    (side) => side !== step.side && (said === 'both' || said === side),
  );
}

function filled(standing: Standing, step: AttemptStep, reading: Reading, reply: Reply): Weighed {
  const { book, log } = standing;
  const same = sameAs(book, log, step, reply.side);
  if ('lacks' in same) return reply.result === null ? { ...reading, lacks: same.lacks } : reading;
  const repeated = reply.result === null ? replyLike(same.like, same.side, reply.pain) : reply;
  const readback = `${book.vocabulary.sides[same.side].readback}: ${rest(standing, repeated)}`;
  return offeredAs(standing, reading, repeated, say(book.lines, 'confirm.same', { readback }));
}

const rest = ({ book }: Standing, reply: Reply): string =>
  readbackOf(book, { ...reply, side: null }) ?? '';

const offeredAs = (
  { book }: Standing,
  reading: Reading,
  reply: Reply,
  sentence: string,
): Weighed => ({
  ...reading,
  verdict: 'confirm',
  reply,
  readback: readbackOf(book, reply),
  offers: sentenceOf(sentence),
});

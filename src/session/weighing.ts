import type { Side } from '../domain/areas';
import { answeredSides, replyLike, sameAs } from '../domain/deciding/sides';
import { readbackOf } from '../domain/hearing/readback';
import type { Reading, Reply } from '../domain/hearing/reply';
import { say } from '../domain/saying';
import { isPain, type AttemptStep } from './answerFacts';
import { completed } from './completing';
import type { SessionContext } from './sessionContext';

/** A reading weighed against what the session has already. */
export type Weighed = Reading & {
  /** The sentence that offers it, where another than the usual. */
  offers?: string;
  /** "Same", but that side has no finding yet, or there is no other side. */
  lacks?: Side | 'other-side';
};

type Standing = Pick<SessionContext, 'book' | 'log' | 'decision' | 'settings'>;

/**
 * What words alone cannot tell: a grade completes what was said before it, "same" is filled from the other side's finding, and a result for
 * a side that has one already is asked about before it replaces it. Weighing again changes nothing.
 */
export function weighed(standing: Standing, heard: Reading): Weighed {
  const step = standing.decision?.step;
  const reading = completed(standing, heard);
  const { reply } = reading;
  if (reply === null || (step?.do !== 'check' && step?.do !== 'set')) return reading;
  if (reply.same) return filled(standing, step, reading, reply);
  const { side } = reply;
  if (reply.result === null || isPain(reply) || side === null || !replaces(standing, step, side))
    return reading;
  const { book } = standing;
  const again = { side: book.vocabulary.sides[side].readback, readback: rest(standing, reply) };
  return offered(standing, reading, reply, say(book.lines, 'confirm.again', again));
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
  return offered(standing, reading, repeated, say(book.lines, 'confirm.same', { readback }));
}

const rest = ({ book }: Standing, reply: Reply): string =>
  readbackOf(book, { ...reply, side: null }) ?? '';

const offered = (
  { book }: Standing,
  reading: Reading,
  reply: Reply,
  sentence: string,
): Weighed => ({
  ...reading,
  verdict: 'confirm',
  reply,
  readback: readbackOf(book, reply),
  offers: sentence.charAt(0).toUpperCase() + sentence.slice(1),
});

import { fits } from '../domain/hearing/either';
import { ANGLE_DEGREES } from '../domain/hearing/judging';
import { readbackOf } from '../domain/hearing/readback';
import { NO_REPLY, type Reading, type Reply } from '../domain/hearing/reply';
import type { CueBook } from '../domain/script';
import { isPain } from './answerFacts';
import type { SessionContext } from './sessionContext';

/** A reading that was settled by what was said of an offer: chosen of two, or put right. */
export type Settled = Reading & { settled?: true };

type Standing = Pick<SessionContext, 'book' | 'settings' | 'decision'> & { offered: Reading };

/**
 * What is said of an offer, made whole: one of two that were offered becomes that reading, and a
 * value ("no, one fifty") takes its place in the reply that was offered; what was read back and
 * not put right stands. A value without a "no" is offered anew. Anything else stays as it was.
 */
export function ofOffer(standing: Standing, answer: Reading): Settled {
  const { offered } = standing;
  const { reply } = answer;
  if (reply === null || reply.redFlag !== null) return answer;
  if (offered.other !== undefined) {
    const chosen = chosenOf(standing.book, offered, offered.other, answer);
    if (chosen !== null) return chosen;
  }
  if (isPain(reply)) return answer;
  if (answer.corrects === true || isPart(reply)) return putRight(standing, answer, reply);
  return answer;
}

/** The one that was picked or named, as sure as its words by themselves; null where neither was. */
function chosenOf(book: CueBook, first: Reading, second: Reading, answer: Reading): Settled | null {
  const both = [first, second];
  const named = both.filter((each) => fits(answer, each));
  const chosen = answer.picks === 'first' ? first : answer.picks === 'second' ? second : named[0];
  if (chosen === undefined || (answer.picks === undefined && named.length > 1)) return null;
  const { reply, readback, asks, and } = chosen;
  const verdict = chosen === first ? 'accept' : chosen.verdict;
  const { confidence } = answer;
  return {
    ...{ heard: joined(chosen, answer), reply, confidence, verdict, settled: true },
    readback: reply && chosen === first ? readbackOf(book, reply) : readback,
    ...(asks && { asks }),
    ...(and && { and }),
  };
}

function putRight(standing: Standing, answer: Reading, reply: Reply): Settled {
  const { book, offered, decision } = standing;
  const step = decision?.step;
  const of = offered.reply ?? NO_REPLY;
  const sideless = (step?.do === 'check' || step?.do === 'set') && step.side === null;
  const number = reply.angleDegrees;
  const isPainNumber = number !== null && of.pain !== null && of.angleDegrees === null;
  const grades = reply.result !== null || answer.asks === 'limited-or-lost';
  const whole: Reply = {
    ...of,
    side: sideless ? of.side : (reply.side ?? of.side),
    ...(isPainNumber ? { pain: number } : { angleDegrees: number ?? of.angleDegrees }),
    ...(grades && { result: reply.result, faults: reply.faults }),
  };
  const isChanged = JSON.stringify(whole) !== JSON.stringify(of);
  // "Yes, left" says again what is right; "no" and a side where there are none is a no.
  if (!isChanged) return yesOrNo(answer, reply);
  const sure = answer.corrects === true && offered.and === undefined && isPossible(standing, whole);
  return {
    heard: joined(offered, answer),
    reply: whole,
    confidence: answer.confidence,
    verdict: sure && whole.result !== null ? 'accept' : 'confirm',
    readback: readbackOf(book, whole),
    ...(whole.result === null && answer.asks && { asks: answer.asks }),
    ...(offered.and && { and: offered.and }),
    settled: true,
  };
}

const yesOrNo = (answer: Reading, { command }: Reply): Reading =>
  command === 'yes' || command === 'no'
    ? { ...answer, reply: { ...NO_REPLY, command } }
    : { ...answer, verdict: 'confirm' };

/** A side or a number, with a yes or a no or alone. */
const isPart = ({ command, side, result, angleDegrees }: Reply): boolean =>
  result === null &&
  (side !== null || angleDegrees !== null) &&
  (command === null || command === 'yes' || command === 'no');

function isPossible({ settings }: Standing, reply: Reply): boolean {
  const { result, angleDegrees: angle, pain } = reply;
  if (pain !== null && pain > 10) return false;
  if (angle === null) return true;
  const isUnder = result === 'held' && angle < settings.passLineDegrees;
  return angle >= ANGLE_DEGREES.least && angle <= ANGLE_DEGREES.most && !isUnder;
}

const joined = (offered: Reading, answer: Reading): string =>
  [offered.heard, answer.heard].filter(Boolean).join(', ');

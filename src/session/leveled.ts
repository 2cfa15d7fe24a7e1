import { readbackOf } from '../domain/hearing/readback';
import { numberSpoken } from '../domain/hearing/numbers';
import { NO_REPLY, type Reading, type Reply } from '../domain/hearing/reply';
import { say, sentenceOf } from '../domain/saying';
import type { PromptId } from '../domain/script';
import { armVerdict, middleOf, shinVerdict, worstOf } from '../domain/tilt/grading';
import type { LevelRead } from './leveling';
import type { Stage } from './stage';
import type { Weighed } from './weighing';

/** What the level told in one attempt, by the lines of it that it looked at. */
export type LevelReads = Record<number, LevelRead>;

/** Whole degrees, and the line of the session that it is held against. */
export interface ArmAngle {
  degrees: number;
  passLineDegrees: number;
}

/** How a question opens with what the level told; without one as it would anyway. */
export interface Supported {
  ask: string;
  kept: Weighed | null;
  /** The arm's angle, to be offered with the answer. */
  arm: ArmAngle | null;
}

/** What the session knows besides. */
export interface Told {
  /** That the level is lost was said already. */
  isLossTold: boolean;
  passLineDegrees: number;
}

/** The fault that a tilted shin is; see scripts-cues. */
const TILTED = 'shins-tilted';

/**
 * The level only supports the answer: it says what it saw, and where that is clear a yes makes it
 * the answer. Too close to call, or lost, the question is asked as it always is.
 */
export function supported(
  stage: Stage,
  { ask, kept }: Pick<Supported, 'ask' | 'kept'>,
  levels: LevelReads,
  { isLossTold, passLineDegrees }: Told,
): Supported {
  const usual = { ask, kept, arm: null };
  const each = Object.values(levels);
  const { level } = stage;
  if (level === undefined || each.length === 0) return usual;
  const { lines, vocabulary } = stage.book;
  if (isLost(levels)) {
    return isLossTold ? usual : { ...usual, ask: join(say(lines, 'level.lost', {}), ask) };
  }
  const reads = each.map(({ read }) => read);
  if (level.on === 'upper-arm') {
    const read = middleOf(reads.filter((one) => one !== null));
    return read === null
      ? usual
      : { ...usual, arm: { degrees: Math.round(read.degrees), passLineDegrees } };
  }
  const worst = worstOf(reads);
  if (worst === null || kept !== null) return usual;
  const verdict = shinVerdict(worst);
  const degrees = numberSpoken(vocabulary.numbers, Math.round(worst.degrees));
  const sentence = say(lines, `level.shin-${verdict}`, { degrees });
  if (verdict === 'close') return { ...usual, ask: join(sentence, ask) };
  const reply: Reply =
    verdict === 'within'
      ? { ...NO_REPLY, result: 'held' }
      : { ...NO_REPLY, result: 'lost', faults: [TILTED] };
  const offered: Weighed = {
    ...{ heard: '', verdict: 'confirm', confidence: 1, reply },
    readback: readbackOf(stage.book, reply),
    offers: sentence,
    measured: { shinDegrees: Math.round(worst.degrees) },
  };
  return { ...usual, kept: offered };
}

/** It fell silent somewhere in the attempt: what it told before counts no more. */
export const isLost = (levels: LevelReads): boolean =>
  Object.values(levels).some((level) => level.isLost);

const join = (one: string, other: string) => `${one} ${other}`;

/** Whether an answer lacks the angle that the level has: a grade of the one position that was held. */
export const lacksAngle = (prompt: PromptId, { verdict, reply, and }: Reading): boolean =>
  prompt.startsWith('check/') &&
  verdict === 'accept' &&
  reply?.result != null &&
  reply.result !== 'pain' &&
  reply.result !== 'not-tested' &&
  reply.angleDegrees === null &&
  and === undefined;

/** The answer with the level's angle, to be confirmed. */
export function withAngle(
  { book }: Stage,
  reading: Weighed,
  { degrees, passLineDegrees }: ArmAngle,
): Weighed {
  const reply: Reply = { ...(reading.reply ?? NO_REPLY), angleDegrees: degrees };
  const isUnder =
    reply.result === 'held' &&
    armVerdict({ degrees, uncertainDegrees: 0 }, passLineDegrees) === 'outside';
  return {
    ...reading,
    verdict: 'confirm',
    reply,
    readback: readbackOf(book, reply),
    offers: sentenceOf(
      say(book.lines, isUnder ? 'level.arm-under' : 'level.arm', {
        readback: reading.readback ?? '',
        degrees: numberSpoken(book.vocabulary.numbers, degrees),
      }),
    ),
    measured: {},
  };
}

import { understand } from '../domain/hearing/understanding';
import type { Reading } from '../domain/hearing/reply';
import type { Entry } from '../domain/log';
import type { PromptId } from '../domain/script';
import { isPain } from './answerFacts';
import type { SessionContext } from './sessionContext';

/** Pain is on record, and its number was neither told nor left unanswered. */
export function awaitsPainNumber(log: readonly Entry[]): boolean {
  const last = log.findLast(({ type }) => SETTLES.includes(type));
  return (
    last?.type === 'finding' &&
    last.pain === null &&
    (last.result === 'pain' || last.asksPain === true)
  );
}
const SETTLES: readonly Entry['type'][] = ['finding', 'pain-number', 'overrule', 'undone'];

/**
 * A number that comes a breath after the pain it belongs to ("it hurts ... four"), begun before
 * the number was asked: it is that number. Any other reading stays as it is.
 */
export function withLateNumber<R extends Reading>(
  { book, log, settings }: Pick<SessionContext, 'book' | 'log' | 'settings'>,
  reading: R,
  prompt: PromptId,
): R | Reading {
  const { reply, heard, confidence } = reading;
  const asks = prompt === 'confirm' || prompt.startsWith('pain/');
  if (asks || heard === '' || !awaitsPainNumber(log)) return reading;
  if (reply !== null && (isPain(reply) || reply.redFlag !== null || reply.command !== null))
    return reading;
  const late = understand(book, 'pain/how-much', heard, { ...settings, confidence });
  return late.reply?.pain == null ? reading : late;
}

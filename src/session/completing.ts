import type { Reading, Reply } from '../domain/hearing/reply';
import { readbackOf } from '../domain/hearing/readback';
import type { Entry, EntryOf } from '../domain/log';
import type { SessionContext } from './sessionContext';

/** Entries between what lacked its grade and the grade. */
const BETWEEN: readonly Entry['type'][] = [
  ...(['asked', 'decision', 'outcome', 'paused', 'resumed', 'words'] as const),
];

/**
 * "Left, one forty" lacks its grade, and "almost" how it failed: that is asked for, and what comes
 * next takes over the side, angle and faults that were said before. A pass that is now under the
 * line is asked about. Completing again changes nothing.
 */
export function completed<R extends Reading>(
  { book, log, settings }: Pick<SessionContext, 'book' | 'log' | 'settings'>,
  reading: R,
): R {
  const { reply } = reading;
  const before = reply?.result == null ? null : lacking(log, reading);
  if (reply === null || before === null) return reading;
  const part = before.reply ?? reply;
  const whole: Reply = {
    ...reply,
    side: reply.side ?? part.side,
    angleDegrees: reply.angleDegrees ?? part.angleDegrees,
    faults: [...new Set([...part.faults, ...reply.faults])],
  };
  const { result, angleDegrees } = whole;
  const isUnder =
    result === 'held' && angleDegrees !== null && angleDegrees < settings.passLineDegrees;
  return {
    ...reading,
    heard: [before.text, reading.heard].filter(Boolean).join(', '),
    reply: whole,
    verdict: isUnder ? 'confirm' : reading.verdict,
    readback: readbackOf(book, whole),
  };
}

/** What was heard last of this question, where it lacked its result. */
function lacking(log: readonly Entry[], { heard }: Reading): EntryOf<'heard'> | null {
  for (const entry of [...log].reverse()) {
    if (BETWEEN.includes(entry.type)) continue;
    if (entry.type !== 'heard') return null;
    const isThis = entry.reply?.result != null && entry.text.endsWith(heard);
    if (isThis) continue;
    return entry.verdict === 'confirm' && isPart(entry.reply) ? entry : null;
  }
  return null;
}

const isPart = (reply: Reply | null): boolean =>
  reply !== null && reply.result === null && reply.command === null && !reply.same;

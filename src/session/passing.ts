import type { AnyActorRef } from 'xstate';
import { planHomework, planOf } from '../domain/pacing/planning';
import { changedWords, wordsOf } from '../domain/pacing/words';
import { say } from '../domain/saying';
import type { VoiceChange } from '../ports';
import { askAnew } from './attempting';
import { heardOf, sourceOf, type Change, type SessionMachineEvent } from './events';
import type { Meaning } from './meaning';
import { noting, type SessionContext } from './sessionContext';
import { weighed } from './weighing';

export const toStore = ({ ports, unstored }: SessionContext) => ({
  records: ports.records,
  clock: ports.clock,
  entries: unstored,
});

export function adjustVoice(context: SessionContext, event: SessionMachineEvent): void {
  context.ports.voice.adjust(heardOf(context, event).reading.reply?.command as VoiceChange);
}

/** One step fewer or more words, on record so that a reload goes on so, and said to be. */
export function setWords(context: SessionContext, event: SessionMachineEvent): Change {
  const { reading } = heardOf(context, event);
  const change = reading.reply?.command === 'more-words' ? 'more' : 'fewer';
  const words = changedWords(wordsOf(context.log), change);
  const key = words ?? (change === 'more' ? 'most' : 'fewest');
  return {
    ...askAnew(context),
    texts: [say(context.book.lines, `say.words-${key}`, {})],
    ...(words !== null && noting(context, [{ type: 'words', words, source: sourceOf(reading) }])),
  };
}

/** What is said in between, after which the session goes on where it was. */
export function setAside(
  context: SessionContext,
  event: SessionMachineEvent,
  meaning: Meaning,
): Change {
  const { lines } = context.book;
  if (meaning === 'time-left') {
    return {
      ...askAnew(context),
      texts: [say(lines, 'say.time-left', { minutes: minutesLeft(context) })],
    };
  }
  const lacks = meaning === 'lacks' ? heardOf(context, event).reading.lacks : undefined;
  if (lacks === 'left' || lacks === 'right') {
    const { readback: side } = context.book.vocabulary.sides[lacks];
    return { ...askAnew(context), texts: [say(lines, 'say.lacks-side', { side })] };
  }
  return { ...askAnew(context), texts: [say(lines, `say.${meaning}`, {})] };
}

/** Minutes of the routine that are still planned, at least one; a guess, said as one. */
function minutesLeft({ book, log, stage, logbook, ports }: SessionContext): number {
  const started = log.find((entry) => entry.type === 'started');
  const { homework, routine: id = '' } = started ?? {};
  const routine = book.routines[id];
  // At the pace that is spoken at: a group's, or after "slower".
  const stretch = ports.voice.stretch?.() ?? 1;
  const spokenSeconds = (text: string) => stage.secondsOf(text) * stretch;
  const planned = homework
    ? planHomework(book, homework, spokenSeconds)
    : routine
      ? planOf(book, routine, spokenSeconds)
      : [];
  const totalSeconds = planned.reduce((sum, { seconds }) => sum + seconds, 0);
  const elapsedSeconds = (ports.clock.now() - logbook.startedAtMilliseconds) / 1000;
  return Math.max(1, Math.round((totalSeconds - elapsedSeconds) / 60));
}

type Children = Record<string, AnyActorRef | undefined>;

export function pass(
  context: SessionContext,
  event: SessionMachineEvent,
  { attempt, question }: Children,
): void {
  const child = attempt ?? question;
  const passed =
    event.type === 'HEARD'
      ? heardOf(context, event)
      : event.type === 'SO_FAR'
        ? { ...event, reading: weighed(context, event.reading, event.prompt) }
        : event;
  const isNothing = passed.type === 'HEARD' && passed.reading.verdict === 'ignore';
  child?.send(isNothing ? { type: 'NOTHING' } : passed);
}

export function passMeaning(
  type: 'READY' | 'REP' | 'FINISHED' | 'REPEAT' | 'KEPT',
  context: SessionContext,
  event: SessionMachineEvent,
  { attempt, question }: Children,
): void {
  const child = attempt ?? question;
  child?.send(type === 'KEPT' ? { type, reading: heardOf(context, event).reading } : { type });
}

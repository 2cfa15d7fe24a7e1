import type { Decision, Step } from '../domain/deciding/step';
import { readbackOf } from '../domain/hearing/readback';
import { NO_REPLY, type Reply } from '../domain/hearing/reply';
import type { Entry } from '../domain/log';
import { say } from '../domain/saying';
import type { CueBook } from '../domain/script';
import type { Change } from './events';
import type { SessionContext } from './sessionContext';

/**
 * What is told before a step: readback, outcomes and the reason, in that order; where something
 * new begins after the reason, the outcomes stand between the two. A reason that reads back itself
 * is enough. After an undo, what was taken out and what is asked, since the old reason was heard.
 */
export function tellingTexts({ book, log, readback, texts, decision }: SessionContext): string[] {
  if (decision === null) return [readback, ...texts];
  if (isUndone(log)) return [readback, ...texts, nameOf(book, decision.step)];
  const because = namesSide(decision) ? '' : decision.because;
  const words = readback.replace(/[^\p{L}\p{N}]+$/u, '').toLowerCase();
  const said = because.toLowerCase().includes(words) ? '' : readback;
  const { then } = decision;
  const welcome = isNew(log) ? [welcomeOf(book, log), say(book.lines, 'say.caution', {})] : [];
  return then === null ? [...welcome, said, ...texts, because] : [said, because, ...texts, then];
}

/** The step begins with its side, so a reason that only says that need not be said. */
const namesSide = ({ rule }: Decision): boolean => rule === '10.3' || rule === '2.3';

/** Alone there is nobody who sees. */
function welcomeOf({ lines }: CueBook, log: Entry[]): string {
  const isAlone = log.some((entry) => entry.type === 'started' && entry.way === 'alone');
  return say(lines, isAlone ? 'say.welcome-alone' : 'say.welcome', {});
}

/** Nothing was said or asked yet: a session that has just begun. */
const isNew = (log: Entry[]): boolean =>
  log.every(({ type }) => type === 'started' || type === 'decision');

/** Whether the last thing that decides was taken back. */
const isUndone = (log: Entry[]): boolean =>
  log.findLast(({ type }) => !NOTES.includes(type))?.type === 'undone';
const NOTES: Entry['type'][] = ['asked', 'heard', 'decision', 'outcome', 'paused', 'resumed'];

function nameOf({ checks, drills }: CueBook, step: Step): string {
  const name =
    step.do === 'check'
      ? checks[step.check]?.name
      : step.do === 'set'
        ? drills[step.drill]?.name
        : undefined;
  return name === undefined ? '' : sentence(name);
}

/** Words as a sentence: "left, one forty" becomes "Left, one forty." */
export const sentence = (words: string): string =>
  words === '' ? '' : `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;

/** What an undo took out, as it is said. */
export function undoneText(book: CueBook, entry: Entry): string {
  const what = readbackOf(book, replyIn(entry));
  return what === null
    ? say(book.lines, 'say.undone', {})
    : say(book.lines, 'say.undone-what', { what });
}

function replyIn(entry: Entry): Reply {
  if (entry.type === 'finding') {
    const { side, result, faults, angleDegrees, pain } = entry;
    return { ...NO_REPLY, side, result, faults, angleDegrees, pain };
  }
  if (entry.type === 'overrule') {
    return { ...NO_REPLY, command: entry.command, target: entry.target };
  }
  if (entry.type === 'pain-number' && entry.pain !== 'unanswered') {
    return { ...NO_REPLY, result: 'pain', pain: entry.pain };
  }
  return NO_REPLY;
}

export const markTold = ({ decision }: SessionContext): Change => ({
  told: decision,
  readback: '',
  texts: [],
});

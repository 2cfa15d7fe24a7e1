import type { Decision, Step } from '../domain/deciding/step';
import { numberSpoken } from '../domain/hearing/numbers';
import { readbackOf } from '../domain/hearing/readback';
import { NO_REPLY, type Reply } from '../domain/hearing/reply';
import type { Entry, Words } from '../domain/log';
import { asDecided } from '../domain/pacing/known';
import { wordsOf } from '../domain/pacing/words';
import { say } from '../domain/saying';
import type { CueBook } from '../domain/script';
import type { Change } from './events';
import type { SessionContext } from './sessionContext';

/**
 * What is told before a step: readback, outcomes and the reason, in that order; where something
 * new begins after the reason, the outcomes stand between the two. A reason that reads back itself
 * is enough. After an undo, what was taken out and what is asked, since the old reason was heard.
 * In tones the name of what comes new stands for the reason.
 */
export function tellingTexts({ book, log, readback, texts, decision }: SessionContext): string[] {
  if (decision === null) return [readback, ...texts];
  if (isUndone(log)) return [readback, ...texts, nameOf(book, decision.step)];
  const words = wordsOf(asDecided(log));
  const isFirst = isNew(log);
  const because = becauseOf(book, decision, words);
  const understood = readback.replace(/[^\p{L}\p{N}]+$/u, '').toLowerCase();
  const said = because.toLowerCase().includes(understood) ? '' : readback;
  const { then } = decision;
  if (words === 'tones') {
    const name = decision.from === decision.to ? '' : nameOf(book, decision.step);
    const caution = isFirst ? say(book.lines, 'say.caution', {}) : '';
    return [caution, said, because, ...texts, because !== '' && then === null ? '' : name];
  }
  const welcome = isFirst ? [welcomeOf(book, log), say(book.lines, 'say.caution', {})] : [];
  // What is asked tells its reason itself.
  if (decision.step.do === 'ask') return welcome;
  return then === null
    ? [...welcome, said, ...texts, because]
    : [...welcome, said, because, ...texts, then];
}

/** More than a why: pain, a cap, a warning sign, what cannot be done, the end. Always told. */
const ALWAYS_TOLD = /^(1|6|7|12|15)\.|^9\.8$/;
/** The same again: which set it is says enough, since what changed is told as it is set up. */
const SAME_AGAIN = ['2.2', '3.1', '3.2', '3.3'];

function becauseOf(book: CueBook, decision: Decision, words: Words): string {
  const { because, rule, step, from, to } = decision;
  if (namesSide(decision)) return '';
  if (words === 'learning' || ALWAYS_TOLD.test(rule)) return because;
  if (words === 'tones') return '';
  if (from !== to || step.do !== 'set' || !SAME_AGAIN.includes(rule)) return because;
  const number = numberSpoken(book.vocabulary.numbers, step.set);
  return say(book.lines, 'say.set', { number });
}

/** The step begins with its side, so a reason that only says that need not be said. */
const namesSide = ({ rule }: Decision): boolean => rule === '10.3' || rule === '2.3';

/** Alone there is nobody who sees. */
function welcomeOf({ lines }: CueBook, log: Entry[]): string {
  const started = log.find((entry) => entry.type === 'started');
  if (started?.homework !== undefined) return say(lines, 'say.welcome-homework', {});
  return say(lines, started?.way === 'alone' ? 'say.welcome-alone' : 'say.welcome', {});
}

/** Nothing was said or asked yet: a session that has just begun. */
export const isNew = (log: Entry[]): boolean =>
  log.every(({ type }) => type === 'started' || type === 'decision');

/** Whether the last thing that decides was taken back. */
const isUndone = (log: Entry[]): boolean =>
  log.findLast(({ type }) => !NOTES.includes(type))?.type === 'undone';
const NOTES: Entry['type'][] = [
  ...(['asked', 'heard', 'decision', 'outcome', 'paused', 'resumed', 'words'] as const),
];

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
  const isPain = entry.type === 'pain-number' || entry.type === 'morning';
  if (isPain && entry.pain !== 'unanswered') {
    return { ...NO_REPLY, result: 'pain', pain: entry.pain };
  }
  return NO_REPLY;
}

export const markTold = ({ decision }: SessionContext): Change => ({
  told: decision,
  readback: '',
  texts: [],
});

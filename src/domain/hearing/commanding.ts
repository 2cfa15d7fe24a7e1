import type { Area } from '../areas';
import type { CueBook } from '../script';
import { bare } from './loosely';
import type { Meanings } from './meanings';
import { targetsOf } from './naming';
import type { Command } from './reply';
import type { Word, Words } from './words';

/** A command found in an utterance. */
export interface CommandSaid {
  command: Command;
  /** Of `go-to`; null where the name fits several. */
  target: string | null;
  /** False where the words name several commands (a bare "back") or several drills. */
  clear: boolean;
  /** Where its words begin and how many it took; fewer than all of them only between commas. */
  from: number;
  length: number;
}

/**
 * The command that an utterance is, politeness aside, or that stands before its first comma or
 * after its last. Commands count only whole: "he bounced back" holds none.
 */
export function commandSaid(
  book: CueBook,
  meanings: Meanings,
  words: Word[],
  allowed: readonly Command[],
  area: Area | null,
): CommandSaid | null {
  const halt = haltIn(meanings, words, allowed) ?? answerIn(meanings, words, allowed);
  if (halt) return halt;
  for (const { from, to } of wholesOf(words)) {
    const clause = words.slice(from, to);
    const texts = clause.map(({ text }) => text);
    const length = to - from;
    if (isOrder(meanings, texts) || (from > 0 && isPraise(meanings, texts))) continue;
    for (const phrase of unwrapped(book, texts)) {
      const found = sameCommand(meanings, phrase, allowed);
      if (found) return { ...found, target: null, from, length };
      const [target = null, ...others] = namedIn(book, meanings, phrase, area);
      const clear = others.length === 0;
      if (target) return { command: 'go-to', target: clear ? target : null, clear, from, length };
    }
    const isKnown = meanings.phrases.get(texts.join(' '))?.some(({ is }) => is !== 'fillers');
    const command = isKnown ? null : looselySaid(book, meanings, clause, allowed);
    if (command) return { command, target: null, clear: true, from, length };
  }
  return null;
}

/** Fewest words of a command after a comma, since "again" there is said to an athlete. */
const LEAST_AFTER = 2;

/** All that was said, what stands before the first comma, and what stands after the last. */
function wholesOf(words: Word[]): { from: number; to: number }[] {
  const all = { from: 0, to: words.length };
  const first = words.findIndex((word) => word.after);
  if (first <= 0) return [all];
  const last = { from: words.findLastIndex((word) => word.after), to: words.length };
  return [all, { from: 0, to: first }, ...(last.to - last.from >= LEAST_AFTER ? [last] : [])];
}

/** More words than this, small ones aside, are no command; what may stand round one can be read in many ways. */
const MOST_LOOSE = 14;

/** "Could we take a bit of weight off that": the words of a command with small ones between. */
function looselySaid(
  { vocabulary }: CueBook,
  { loosely }: Meanings,
  words: Word[],
  allowed: readonly Command[],
): Command | null {
  const { text, at } = bare(vocabulary.numbers, loosely.small, words);
  if (at.length > MOST_LOOSE) return null;
  const found = loosely.commands.find(
    ({ command, expression }) => allowed.includes(command) && expression.test(text),
  );
  return found?.command ?? null;
}

/** "Pause right there, two seconds" is said to the athlete. */
const isOrder = ({ phrases, commands }: Meanings, texts: string[]): boolean => {
  const whole = texts.join(' ');
  return !commands.has(whole) && (phrases.get(whole)?.some(({ is }) => is === 'orders') ?? false);
};

/** Whether words are nothing but praise. */
export const isPraise = ({ phrases }: Meanings, texts: string[]): boolean =>
  phrases.get(texts.join(' '))?.some(({ is }) => is === 'praise') ?? false;

/** Words that may stand before an answer: a name, or a yes of another language. */
const BEFORE_ANSWER = 2;

/** "Haan, yes yes": an answer after a comma, and before it nothing that means anything. */
function answerIn(
  { phrases, commands }: Meanings,
  words: Word[],
  allowed: readonly Command[],
): CommandSaid | null {
  const comma = words.findLastIndex((word) => word.after);
  const before = words.slice(0, comma);
  if (comma <= 0 || comma > BEFORE_ANSWER) return null;
  if (before.some(({ text }) => phrases.has(text) || commands.has(text))) return null;
  const answers = (['yes', 'no'] as const).filter((each) => allowed.includes(each));
  const last = words.slice(comma).map(({ text }) => text);
  const found = sameCommand({ commands }, last, answers);
  return found && { ...found, target: null, from: 0, length: words.length };
}

/** "No, stop" is a stop, after a comma as before it; a pause too, beside another command. */
function haltIn(
  meanings: Meanings,
  words: Word[],
  allowed: readonly Command[],
): CommandSaid | null {
  const comma = words.findLastIndex((word) => word.after);
  if (comma <= 0) return null;
  const texts = words.map(({ text }) => text);
  const last = texts.slice(comma);
  const stop = sameCommand(meanings, last, ['stop']);
  if (stop) return { ...stop, target: null, from: 0, length: words.length };
  if (!allowed.includes('pause') || !sameCommand(meanings, texts.slice(0, comma), allowed))
    return null;
  // "Go heavier, no wait".
  const isNo = meanings.commands.get(last[0] ?? '')?.command === 'no';
  const pause = sameCommand(meanings, isNo ? last.slice(1) : last, ['pause']);
  return pause && { ...pause, target: null, from: 0, length: words.length };
}

/** The words, then with politeness taken off either end, longest first. */
export function unwrapped(book: CueBook, texts: string[]): string[][] {
  const polite = new Set(book.vocabulary.talk.polite);
  const cut = (from: number, to: number) => polite.has(texts.slice(from, to).join(' '));
  const starts = [0];
  for (const start of starts)
    for (let end = start + 1; end <= Math.min(start + 3, texts.length); end++)
      if (cut(start, end) && !starts.includes(end)) starts.push(end);
  const ends = [texts.length];
  for (const end of ends)
    for (let start = end - 1; start >= Math.max(0, end - 3); start--)
      if (cut(start, end) && !ends.includes(start)) ends.push(start);
  return starts
    .flatMap((start) => ends.map((end) => texts.slice(start, end)))
    .filter((phrase) => phrase.length > 0)
    .sort((a, b) => b.length - a.length);
}

/** A command, perhaps said several times in several ways ("stop, stop it"). */
function sameCommand(
  meanings: Pick<Meanings, 'commands'>,
  phrase: string[],
  allowed: readonly Command[],
): { command: Command; clear: boolean } | null {
  for (let end = phrase.length; end > 0; end--) {
    const found = meanings.commands.get(phrase.slice(0, end).join(' '));
    if (!found || !allowed.includes(found.command)) continue;
    if (end === phrase.length) return found;
    const again = sameCommand(meanings, phrase.slice(end), allowed);
    return again?.command === found.command ? again : null;
  }
  return null;
}

/** Other words that a "stop" at the start or end of an utterance may have beside it. */
const BESIDE_STOP = 2;

/**
 * Whether somebody may have asked to stop among a few words that are not understood ("coach,
 * stop"): asked about, since a stop that is missed may hurt.
 */
export function mayStop(book: CueBook, { words, question }: Words): boolean {
  const { stopWords, talk } = book.vocabulary;
  const texts = words.map(({ text }) => text);
  const isStop = (text: string | undefined) => text !== undefined && stopWords.includes(text);
  const others = texts.filter((text) => !isStop(text));
  const edge = isStop(texts[0]) || isStop(texts.at(-1));
  const denied = others.some((text) => talk.negators.includes(text));
  return edge && !denied && !question && others.length <= BESIDE_STOP;
}

/** The checks and drills that a name after an opener may mean. */
function namedIn(book: CueBook, meanings: Meanings, phrase: string[], area: Area | null): string[] {
  for (let at = phrase.length - 1; at > 0; at--) {
    const opener = meanings.openers.get(phrase.slice(0, at).join(' '));
    if (!opener) continue;
    const rest = phrase.slice(at);
    const bare = book.vocabulary.goTo.articles.includes(rest[0] ?? '') ? rest.slice(1) : rest;
    const targets = targetsOf(book, bare.join(' '), area, opener.wholeOnly);
    if (targets.length > 0) return targets;
  }
  return [];
}

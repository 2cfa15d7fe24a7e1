import type { CueBook, PromptId } from '../script';
import { commandSaid, isPraise, mayStop, type CommandSaid } from './commanding';
import { aroundCallWord, needsNoCallWord } from './calling';
import { atConfirm, isValue } from './confirming';
import { isKnown, meaningsOf } from './meanings';
import { plainBook } from './plainBook';
import { commandsAt, promptOf, type Prompt } from './prompts';
import { NO_REPLY, type Reading, type Reply } from './reply';
import { replied } from './replying';
import { sameSaid } from './same';
import { means, segmentsOf, type Segment } from './segments';
import { talkFrom } from './talk';
import { IGNORED, isHarm, weighed, type Understood, type UnderstandOptions } from './understood';
import { wordsOf, type Words } from './words';

export { LINES, type UnderstandOptions } from './understood';

/** No reply has more words than this; longer ones are talk. */
const MOST_WORDS = 60;

/**
 * Understands one utterance at one prompt. Never throws on any text; throws only where the book
 * has no such prompt. With a call word replies count only after it; what acts or answers without
 * it, `needsNoCallWord` says.
 * @example understand(book, 'check/hinge-bar', 'knees came forward', { ...DEFAULT_SETTINGS, confidence: 1 })
 */
export function understand(
  book: CueBook,
  prompt: PromptId,
  text: string,
  options: UnderstandOptions,
): Reading {
  const asked = promptOf(book, prompt);
  if (!asked) throw new Error(`There is no prompt "${prompt}" in the cue scripts.`);
  const plain = plainBook(book);
  const meanings = meaningsOf(plain);
  const words = wordsOf(text, book.vocabulary.numbers, (word) => isKnown(meanings, word));
  const said = words.words.length > MOST_WORDS ? IGNORED : addressed(plain, asked, words, options);
  return weighed(book, text, said, options.confidence);
}

/** With a call word only what follows it, and what acts or answers without. */
function addressed(
  book: CueBook,
  asked: Prompt,
  words: Words,
  options: UnderstandOptions,
): Understood {
  const { callWord } = options;
  if (callWord == null) return meant(book, asked, words, options);
  const { called, others } = aroundCallWord(words, callWord);
  const reply = called ? meant(book, asked, called, options) : IGNORED;
  if (reply.verdict !== 'ignore') return reply;
  const said = meant(book, asked, others, options);
  return needsNoCallWord(asked, said) ? said : IGNORED;
}

function meant(book: CueBook, asked: Prompt, words: Words, options: UnderstandOptions): Understood {
  const whole = words.words.map((word) => word.text).join(' ');
  const ordered = meaningsOf(book)
    .phrases.get(whole)
    ?.some(({ is }) => is === 'orders');
  if (asked.kind === 'result' && !words.question && meaningsOf(book).mayPass.has(whole))
    return MAY_PASS;
  const same = sameAt(book, asked, words);
  if (same) return same;
  const settled = asked.kind === 'confirm' ? atConfirm(book, asked, words, options) : null;
  if (settled) return stopping(book, asked, words, options, settled);
  const unpraised = withoutPraise(book, words.words);
  const command = ordered ? null : commandAt(book, asked, unpraised);
  const said =
    (command && commanded(book, asked, unpraised, command, options)) ??
    besideCommand(command, replied(book, asked, withoutMovingOn(book, words), options));
  const stopped = stopping(book, asked, words, options, said);
  if (stopped !== said) return stopped;
  return said.verdict === 'ignore' && !ordered && mayStop(book, words) ? ASKS_TO_STOP : said;
}

/** "Clean, go heavier": of a result and what is no reply, which of them counts is asked. */
function besideCommand(command: CommandSaid | null, said: Understood): Understood {
  const isBeside = command !== null && BESIDE.includes(command.command);
  const hurts = isHarm(said.reply) || said.reply.painKind !== null;
  const isPlain = !hurts && said.reply.faults.length === 0;
  return isBeside && said.verdict === 'accept' && isPlain ? { ...said, verdict: 'confirm' } : said;
}
/** Not "next": a result moves on by itself. */
const BESIDE: readonly Reply['command'][] = [
  ...(['undo', 'lighter', 'heavier'] as const),
  ...(['again', 'skip', 'back', 'go-to'] as const),
];

const MAY_PASS: Understood = {
  reply: { ...NO_REPLY, result: 'held' },
  verdict: 'confirm',
  sure: 1,
  asks: 'pass',
};

const ASKS_TO_STOP: Understood = {
  reply: { ...NO_REPLY, command: 'stop' },
  verdict: 'confirm',
  sure: 1,
};

function commandAt(book: CueBook, asked: Prompt, words: Words['words']): CommandSaid | null {
  const area = asked.kind === 'result' ? asked.area : null;
  const said = commandSaid(book, meaningsOf(book), words, commandsAt(asked), area);
  // "No, scratch that" takes back what is offered, not what was recorded before.
  const first = meaningsOf(book).commands.get(words[0]?.text ?? '')?.command;
  return said?.command === 'undo' && asked.kind === 'confirm' && first === 'no'
    ? { ...said, command: 'no' }
    : said;
}

/** More words than this beside a command tell of something else. */
const MOST_ASIDE_WORDS = 4;

/** Short, told to nobody, no praise, side, number or command: for a command beside it it means nothing. */
function isAside(book: CueBook, words: Words['words']): boolean {
  if (words.length > MOST_ASIDE_WORDS || holdsCommand(book, words)) return false;
  const segments = segmentsOf(book.vocabulary, meaningsOf(book), words, () => true);
  const isSaidTo = (segment: Segment) =>
    (['praise', 'addressing', 'side'] as const).some((is) => means(segment, is)) ||
    segment.number !== null;
  return talkFrom(segments) === null && !segments.some(isSaidTo);
}

/** A command but a yes in any stretch of the words. */
const holdsCommand = (book: CueBook, words: Words['words']): boolean =>
  words.some((_, from) =>
    words.some((_each, to) => {
      const phrase = words.slice(from, to + 1).map(({ text }) => text);
      const found = meaningsOf(book).commands.get(phrase.join(' '));
      return found !== undefined && found.command !== 'yes';
    }),
  );

/** "Good set, go heavier": praise before a comma leaves a command what it is. */
function withoutPraise(book: CueBook, words: Words['words']): Words['words'] {
  const comma = words.findIndex((word) => word.after);
  if (comma <= 0) return words;
  const rest = words.slice(comma);
  const praises = (some: Words['words']) =>
    isPraise(
      meaningsOf(book),
      some.map(({ text }) => text),
    );
  return praises(words.slice(0, comma)) && !praises(rest) ? rest : words;
}

/** The other side's finding again, where findings are told; asked about, since a log must fill it. */
function sameAt(book: CueBook, asked: Prompt, { words, question }: Words): Understood | null {
  if (question || asked.kind === 'pain-number' || asked.kind === 'pain-kind') return null;
  const said = sameSaid(
    book,
    words.map(({ text }) => text),
  );
  if (said === null) return null;
  // Without sides "same again" is another set.
  const sideless = asked.kind === 'result' && !asked.sided;
  if (sideless && commandAt(book, asked, words)) return null;
  return { reply: { ...NO_REPLY, same: true, ...said }, verdict: 'confirm', sure: 1 };
}

/**
 * A "stop" that pain follows without a pause for breath ("stop it hurts"), or that follows any
 * reply so: of "elbows bent stop" the stop is no part of the fault.
 */
function stopping(
  book: CueBook,
  asked: Prompt,
  { words, question }: Words,
  options: UnderstandOptions,
  said: Understood,
): Understood {
  const { stopWords, talk } = book.vocabulary;
  const isStop = (word: Words['words'][number] | undefined) =>
    word !== undefined && stopWords.includes(word.text);
  if (said.verdict === 'ignore' || said.reply.command === 'stop') return said;
  const stopped = (reply: Reply): Understood => ({
    reply: { ...reply, command: 'stop' },
    verdict: 'accept',
    sure: 1,
  });
  if (isHarm(said.reply) && isStop(words[0])) return stopped(said.reply);
  const before = words.slice(0, -1);
  const denied = talk.negators.includes(before.at(-1)?.text ?? '');
  if (!isStop(words.at(-1)) || denied || question) return said;
  return stopped(meant(book, asked, { words: before, question: false }, options).reply);
}

/** "Done, pass, moving on": a result says that it is done, and moves on by itself. */
function withoutMovingOn(book: CueBook, { words, question }: Words): Words {
  const commandOf = (some: Words['words']) =>
    meaningsOf(book).commands.get(some.map(({ text }) => text).join(' '))?.command;
  const first = words.findIndex((word) => word.after);
  const last = words.findLastIndex((word) => word.after);
  const from = first > 0 && commandOf(words.slice(0, first)) === 'done' ? first : 0;
  const to = last > from && commandOf(words.slice(last)) === 'next' ? last : words.length;
  const said = words
    .slice(from, to)
    .map((word, at) => (at === 0 ? { ...word, after: false } : word));
  return { words: said, question };
}

/**
 * A command stands alone, or beside its comma stands only what does not change it: of more than a
 * word of it, also something that is not meant for Sayso and neither praises nor is said to anybody
 * ("can't tell, do another").
 */
function commanded(
  book: CueBook,
  asked: Prompt,
  words: Words['words'],
  { command, target, clear, from, length }: CommandSaid,
  options: UnderstandOptions,
): Understood | null {
  const reply: Reply = { ...NO_REPLY, command, target };
  const whole: Understood = { reply, verdict: clear ? 'accept' : 'confirm', sure: 1 };
  if (length === words.length) {
    const nothing = command === 'no' && asked.kind === 'pain-number';
    return nothing ? null : whole;
  }
  const [next, ...others] = from > 0 ? words.slice(0, from) : words.slice(length);
  const rest = next ? [{ ...next, after: false }, ...others] : [];
  const after = replied(book, asked, { words: rest, question: false }, options);
  if (command === 'stop' || command === 'pause')
    return { ...whole, reply: { ...after.reply, command, target } };
  if (after.verdict === 'ignore') {
    const answers = command === 'yes' || command === 'no';
    const isApart = command !== 'go-to' && length > 1 && isAside(book, rest);
    // "Yes, beautiful" praises, where a result is wanted.
    const texts = rest.map(({ text }) => text);
    if (answers && asked.kind === 'result' && isPraise(meaningsOf(book), texts)) return null;
    return answers || isApart ? whole : null;
  }
  // "Yes, left" names again what is right.
  if (command === 'yes' && isValue(after.reply))
    return { ...whole, reply: { ...after.reply, command } };
  return null;
}

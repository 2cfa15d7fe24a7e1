import type { CueBook } from '../script';
import { unwrapped } from './commanding';
import { entries } from './entries';
import { meaningsOf } from './meanings';
import { phrasesOf } from './patterns';
import { numberAt } from './numbers';
import type { Prompt } from './prompts';
import { NO_REPLY, type Choice, type Reply } from './reply';
import { replied } from './replying';
import { isHarm, type Understood, type UnderstandOptions } from './understood';
import type { Word, Words } from './words';

/**
 * What is said of an offer besides yes and no: which of two it was ("the second"), or what is
 * right instead ("no, one fifty"). Null where it is neither.
 */
export function atConfirm(
  book: CueBook,
  asked: Prompt,
  { words, question }: Words,
  options: UnderstandOptions,
): Understood | null {
  if (question) return null;
  const phrases = unwrapped(
    book,
    words.map(({ text }) => text),
  ).map((phrase) => phrase.join(' '));
  // Not politeness aside: a "right" before it may be its side.
  const named = faultNamed(book, [words.map(({ text }) => text).join(' ')]);
  if (named) return { reply: named, verdict: 'confirm', sure: 1 };
  const picks = choiceIn(book, phrases);
  if (picks) return { reply: NO_REPLY, verdict: 'confirm', sure: 1, picks };
  const rest = afterNo(book, words);
  if (rest === null) return null;
  const restNamed = faultNamed(book, [rest.map(({ text }) => text).join(' ')]);
  if (restNamed) return { reply: restNamed, verdict: 'confirm', sure: 1, corrects: true };
  const said = replied(book, asked, { words: rest, question: false }, options);
  if (said.verdict === 'ignore') return null;
  if (isHarm(said.reply)) return said;
  return isValue(said.reply) && said.asks !== 'limited-or-lost'
    ? {
        reply: { ...said.reply, command: 'no' },
        verdict: 'accept',
        sure: said.sure,
        corrects: true,
      }
    : { ...said, verdict: 'confirm', corrects: true };
}

/** A side or a number, and nothing that grades it. */
export const isValue = ({ side, angleDegrees, result, faults, pain }: Reply): boolean =>
  (side !== null || angleDegrees !== null) &&
  result === null &&
  pain === null &&
  faults.length === 0;

/** A fault by the few words it is read back with ("ribs"), as people repeat what was offered. */
function faultNamed(book: CueBook, phrases: string[]): Reply | null {
  const fault = Object.values(book.faults).find(({ readback }) => phrases.includes(readback));
  if (!fault) return null;
  const result = fault.kind === 'position' ? 'lost' : 'short';
  return { ...NO_REPLY, result, faults: [fault.id] };
}

function choiceIn(book: CueBook, phrases: string[]): Choice | null {
  const found = entries(book.vocabulary.either).find(([, { say, also }]) =>
    [...say, ...also].flatMap(phrasesOf).some((phrase) => phrases.includes(phrase)),
  );
  return found?.[0] ?? null;
}

/** No "no" has more words than this ("that's not what i said"). */
const MOST_WORDS_OF_NO = 5;

/**
 * What follows a "no": after a comma anything, else only what can be meant instead ("no left", as
 * against "no pain"). Null where nothing does, or the words are a "no" as a whole.
 */
function afterNo(book: CueBook, words: Word[]): Word[] | null {
  const { commands, phrases } = meaningsOf(book);
  const textOf = (some: Word[]) => some.map(({ text }) => text).join(' ');
  const isNo = (some: Word[]) => commands.get(textOf(some))?.command === 'no';
  const { numbers, afterNo: small } = book.vocabulary;
  for (let length = Math.min(MOST_WORDS_OF_NO, words.length - 1); length > 0; length--) {
    const [next, ...others] = words.slice(length);
    if (!next || !isNo(words.slice(0, length)) || isNo([next, ...others])) continue;
    const rest = [next, ...others];
    const told = rest.slice(rest.findIndex(({ text }) => !small.includes(text)));
    const means = told.flatMap((_, at) => phrases.get(textOf(told.slice(0, at + 1))) ?? []);
    const texts = told.map(({ text }) => text);
    const instead =
      numberAt(numbers, texts, 0) !== null ||
      means.some(({ is }) => is === 'side' || is === 'result');
    const named = faultNamed(book, [textOf(rest)]) !== null;
    if (next.after || instead || named) return [{ ...next, after: false }, ...others];
  }
  return null;
}

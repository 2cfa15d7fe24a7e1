import type { CueBook, PromptId } from '../script';
import { numberSpoken } from './numbers';
import { readbackOf } from './readback';
import { NO_REPLY, type Reading, type Reply } from './reply';
import { understand } from './understanding';
import type { UnderstandOptions } from './understood';

/** The words of a sound, and the best words of another meaning where they fit almost as well. */
export interface EitherWords {
  text: string;
  other?: string | undefined;
}

/**
 * Understands what was heard at one prompt. Where it was only half heard and the other words are
 * another reply here, the reading carries both (`other`) and its readback offers them: "pain, or
 * fail". Stop and pause act at their own low line and are never named, so they offer nothing.
 */
export function understandEither(
  book: CueBook,
  prompt: PromptId,
  { text, other }: EitherWords,
  options: UnderstandOptions,
): Reading {
  const heard = understand(book, prompt, text, options);
  if (other === undefined || heard.verdict !== 'confirm' || prompt === 'confirm') return heard;
  const surely = { ...options, confidence: 1 };
  const first = understand(book, prompt, text, surely);
  const second = understand(book, prompt, other, surely);
  const [one, two] = [first.reply, second.reply];
  if (first.verdict !== 'accept' || one === null || two === null) return heard;
  if ([one, two].some(isHalt) || isSame(one, two)) return heard;
  return { ...heard, other: second, readback: eitherReadback(book, first, second) };
}

const isHalt = ({ command }: Reply): boolean => command === 'stop' || command === 'pause';

const isSame = (one: unknown, other: unknown): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

/** Both readings in as few words as tell them apart: "one fifteen, or one fifty". */
export function eitherReadback(book: CueBook, first: Reading, second: Reading): string {
  const { numbers } = book.vocabulary;
  return eitherWords(book, first, second).join(`, ${numbers.between[0] ?? ''} `);
}

/**
 * What names each of two readings. Where they differ in one thing only (the side, the angle, how
 * strong the pain is, or what was seen) that is named; else nothing is left out.
 */
export function eitherWords(book: CueBook, first: Reading, second: Reading): [string, string] {
  const [one, other] = [first.reply ?? NO_REPLY, second.reply ?? NO_REPLY];
  const differ = (left: (reply: Reply) => Partial<Reply>) =>
    !isSame(left(one), left(other)) || first.asks !== second.asks;
  const whole = ({ side: _side, angleDegrees: _angle, ...rest }: Reply) => rest;
  const sides = one.side !== other.side;
  const angles = one.angleDegrees !== other.angleDegrees;
  const seen = differ(whole);
  const each = (say: (reading: Reading, reply: Reply) => string): [string, string] => [
    say(first, one),
    say(second, other),
  ];
  if (seen && !sides && !angles) {
    const { numbers } = book.vocabulary;
    const bothHurt = one.pain !== null && other.pain !== null;
    if (bothHurt && !differ(({ pain: _pain, ...rest }) => rest))
      return each((_, { pain }) => numberSpoken(numbers, pain ?? 0));
    return each((reading, reply) => named(book, reading, { ...whole(reply) }));
  }
  if (angles && !sides && !seen)
    return each((_, { angleDegrees }) => readOf(book, { angleDegrees }));
  if (sides && !angles && !seen) return each((_, { side }) => readOf(book, { side }));
  return each((reading, reply) => named(book, reading, reply));
}

const readOf = (book: CueBook, said: Partial<Reply>): string =>
  readbackOf(book, { ...NO_REPLY, ...said }) ?? '';

/** With what a reading leaves open, which its reply alone does not hold. */
function named(book: CueBook, { asks }: Reading, said: Partial<Reply>): string {
  const { results, noFault } = book.vocabulary;
  const open =
    said.result != null
      ? ''
      : asks === 'limited-or-lost'
        ? (results.failed.say[0] ?? '')
        : asks === 'pass'
          ? noFault
          : '';
  return [readOf(book, said), open].filter(Boolean).join(', ');
}

/** Whether an answer to an offer of two names that one: nothing in it says otherwise. */
export function fits(answer: Reading, offered: Reading): boolean {
  const [said, of] = [answer.reply, offered.reply];
  if (said === null || of === null) return false;
  if (isSame(said, of)) return true;
  const number = said.angleDegrees;
  const hurts = ({ result, pain }: Reply) => result === 'pain' || (pain ?? 0) > 0;
  const agrees = <T>(one: T | null, other: T | null) => one === null || one === other;
  return (
    agrees(said.side, of.side) &&
    (number === null || number === of.angleDegrees || number === of.pain) &&
    (agrees(said.result, of.result) || (hurts(said) && hurts(of))) &&
    agrees(said.pain, of.pain) &&
    agrees(said.painKind, of.painKind) &&
    agrees(said.redFlag, of.redFlag) &&
    (said.command === 'no' || agrees(said.command, of.command)) &&
    said.faults.every((fault) => of.faults.includes(fault)) &&
    (said.faults.length > 0 || said.result !== of.result || of.faults.length === 0) &&
    (answer.asks === undefined || answer.asks === 'grade' || answer.asks === offered.asks) &&
    saysSomething(answer)
  );
}

const saysSomething = ({ reply, asks }: Reading): boolean =>
  asks !== undefined ||
  (reply !== null && !isSame({ ...reply, command: null }, NO_REPLY)) ||
  (reply?.command != null && reply.command !== 'no');

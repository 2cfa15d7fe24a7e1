import { understandEither, type EitherWords } from '../domain/hearing/either';
import { understandOverSpeech } from '../domain/hearing/overSpeech';
import type { Reply } from '../domain/hearing/reply';
import { understand } from '../domain/hearing/understanding';
import { wordsOf } from '../domain/hearing/words';
import { DEFAULT_SETTINGS } from '../domain/log';
import type { CueBook, PromptId } from '../domain/script';

/** A reply that is asked for, as a session would hear it. */
export interface ReplyToSay {
  prompt: PromptId;
  text: string;
}

/** `right`: acted on as it was meant; `almost`: in part, or asked back; `other`: as something else. */
export type HowHeard = 'right' | 'almost' | 'other' | 'unheard';

/** What became of one reply; the words are null where none were heard. */
export interface ReplyHeard {
  text: string;
  how: HowHeard;
  heard: string | null;
}

/** What steers the check from where the coach stands. */
export type Steer = 'stop' | 'again' | 'go-on';

const AS_EVER = { ...DEFAULT_SETTINGS, callWord: null };

/** The replies of a check: a whole grade, a short one, and the word that must never be lost. */
export function repliesToSay(book: CueBook): ReplyToSay[] {
  const whole = 'left one forty, ribs flared';
  const at = Object.values(book.checks)
    .filter(({ sided, area }) => sided && area === 'overhead')
    .map(({ id }) => `check/${id}`)
    .find((prompt) => isWhole(book, prompt, whole));
  const graded = at === undefined ? [] : [whole, 'pass'].map((text) => ({ prompt: at, text }));
  return [...graded, { prompt: 'idle', text: 'stop' }];
}

const isWhole = (book: CueBook, prompt: PromptId, text: string) => {
  const { verdict, reply } = understand(book, prompt, text, { ...AS_EVER, confidence: 1 });
  return verdict === 'accept' && reply?.angleDegrees != null && reply.faults.length > 0;
};

/** How a session would have taken these words, where that reply was asked for. */
export function howHeard(
  book: CueBook,
  { prompt, text }: ReplyToSay,
  words: EitherWords & { confidence: number },
): Exclude<HowHeard, 'unheard'> {
  const wanted = understand(book, prompt, text, { ...AS_EVER, confidence: 1 }).reply;
  const { confidence } = words;
  const { verdict, reply } = understandEither(book, prompt, words, { ...AS_EVER, confidence });
  if (wanted === null || reply === null || verdict === 'ignore') return 'other';
  if (isPartOf(reply, wanted)) {
    const isAll = isPartOf(wanted, reply);
    return isAll && verdict === 'accept' ? 'right' : 'almost';
  }
  return 'other';
}

/** Whether everything that one of them says the other says too. */
function isPartOf(one: Reply, other: Reply): boolean {
  return (Object.keys(one) as (keyof Reply)[]).every((field) => {
    const [said, wanted] = [one[field], other[field]];
    if (Array.isArray(said))
      return Array.isArray(wanted) && said.every((id) => wanted.includes(id));
    return said === null || said === false || said === wanted;
  });
}

/** What words mean that are said to the check itself, with nothing being asked for. */
export function steerOf(book: CueBook, words: EitherWords & { confidence: number }): Steer | null {
  const { confidence } = words;
  const reading = understandEither(book, 'idle', words, { ...AS_EVER, confidence });
  return reading.verdict === 'ignore' ? null : steerOfReply(reading.reply, reading.verdict);
}

/** A stop that is only offered stops too: it costs a tap. */
export function steerOfReply(reply: Reply | null, verdict = 'accept'): Steer | null {
  const command = reply?.command;
  if (command === 'stop' || command === 'pause') return 'stop';
  if (verdict !== 'accept') return null;
  if (command === 'again' || command === 'repeat') return 'again';
  return command === 'ready' || command === 'done' || command === 'next' ? 'go-on' : null;
}

/** Whether it is a stop although Sayso was saying that line; never one that the line itself says. */
export function isStopOver(
  book: CueBook,
  words: EitherWords & { confidence: number },
  line: string,
): boolean {
  const own = new Set(wordsOf(line).words.map(({ text }) => text));
  if (wordsOf(words.text).words.every(({ text }) => own.has(text))) return false;
  const { confidence } = words;
  const { reply } = understandOverSpeech(book, words, { ...AS_EVER, confidence }, line);
  return reply?.command === 'stop';
}

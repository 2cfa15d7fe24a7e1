import type { CueBook } from '../script';
import { understandEither, type EitherWords } from './either';
import type { Reading } from './reply';
import { isHarm, type UnderstandOptions } from './understood';
import { wordsOf } from './words';

/** What is heard over Sayso's own voice is believed less. */
const OVER_SPEECH = 0.7;
/** A stop word that the line itself says may be its echo; it is believed only where it is clear. */
const OWN_STOP_WORD = 0.3;
/** Words are the same in another ending: "hurt", "hurts". */
const SAME_LETTERS = 4;

/**
 * Understands words that began while Sayso was saying `line`: only stop and pause, pain and red
 * flags count, at a stricter bar, and nothing that the line itself says but a very clear stop. What
 * is being asked counts as not asked yet. Everything else is ignored.
 *
 * @example understandOverSpeech(book, { text: 'stop' }, { ...DEFAULT_SETTINGS, confidence: 0.6 }, 'Stand tall.')
 */
export function understandOverSpeech(
  book: CueBook,
  words: EitherWords,
  options: UnderstandOptions,
  line: string,
): Reading {
  const isEcho = saysAll(line, words.text);
  const share = isEcho ? OWN_STOP_WORD : OVER_SPEECH;
  const reading = understandEither(book, 'idle', words, {
    ...options,
    confidence: options.confidence * share,
    callWord: null,
  });
  const { reply } = reading;
  const isHalt = reply?.command === 'stop' || reply?.command === 'pause';
  const isHurt = reply !== null && (isHarm(reply) || reply.pain !== null);
  if (isHalt || (isHurt && !isEcho)) return reading;
  return { ...reading, verdict: 'ignore', reply: null, readback: null };
}

/** Whether every word is one of the line's. */
function saysAll(line: string, text: string): boolean {
  const [own, heard] = [line, text].map((each) => wordsOf(each).words.map((word) => word.text));
  const isSame = (one: string, other: string) =>
    one === other ||
    (one.length >= SAME_LETTERS && one.slice(0, SAME_LETTERS) === other.slice(0, SAME_LETTERS));
  return (heard ?? []).every((word) => (own ?? []).some((said) => isSame(word, said)));
}

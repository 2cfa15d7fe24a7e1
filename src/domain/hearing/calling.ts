import type { Prompt } from './prompts';
import { isHarm, type Understood } from './understood';
import { wordsOf, type Words } from './words';

/**
 * What follows the last call word of an utterance (null where it is not in it), and the utterance
 * without it: "nice, sayso left one forty limited" calls "left one forty limited".
 */
export function aroundCallWord(
  { words, question }: Words,
  callWord: string,
): { called: Words | null; others: Words } {
  const call = wordsOf(callWord).words.map(({ text }) => text);
  const isCall = (at: number) =>
    call.length > 0 && call.every((text, offset) => words[at + offset]?.text === text);
  const calls = words.flatMap((_, at) => (isCall(at) ? [at] : []));
  const last = calls.at(-1);
  const rest = last === undefined ? [] : words.slice(last + call.length);
  const others = words.filter(
    (_, at) => !calls.some((from) => at >= from && at < from + call.length),
  );
  return {
    called: rest.length > 0 ? { words: begun(rest), question } : null,
    others: { words: begun(others), question },
  };
}

const begun = ([first, ...rest]: Words['words']): Words['words'] =>
  first ? [{ ...first, after: false }, ...rest] : [];

/**
 * What acts or answers without the call word. Always: "stop" and "pause" in all their words,
 * whatever is said of pain ("no pain" too), and red flags. Where Sayso has just asked the coach about his own reply (`confirm`): yes, no,
 * "resume", which of two, a fault alone, and what is put right ("no, one fifty"). Where it asked about pain: the
 * number, the kind, yes and no. Everything else, another whole reply too, needs it.
 */
export function needsNoCallWord(
  { kind }: Prompt,
  { reply, verdict, picks, corrects }: Understood,
): boolean {
  const { command, pain, painKind, side, angleDegrees, result } = reply;
  if (verdict === 'ignore') return false;
  if (isHarm(reply) || pain !== null || command === 'stop' || command === 'pause') return true;
  if (kind !== 'confirm' && kind !== 'pain-number' && kind !== 'pain-kind') return false;
  if (command === 'yes' || command === 'no' || painKind !== null) return true;
  if (kind !== 'confirm') return false;
  const isValue =
    result === null ? side !== null || angleDegrees !== null : reply.faults.length === 1;
  return command === 'resume' || picks !== undefined || corrects === true || isValue;
}

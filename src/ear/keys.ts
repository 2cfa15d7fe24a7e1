import { deedOf, keyName, type Deed, type OwnKey } from '../domain/hearing/deeds';
import { NO_REPLY, type Command, type Reply } from '../domain/hearing/reply';
import type { PromptId } from '../domain/script';

const command = (name: Command): Reply => ({ ...NO_REPLY, command: name });
const result = (name: Reply['result']): Reply => ({ ...NO_REPLY, result: name });

/**
 * What a key means at a prompt, or null where it means nothing there. Keys that a coach has set
 * come before the letters of a question, and never before the answers about pain: digits 0 to 9
 * give its number, n, s and k its kind, and no deed but stop and the commands counts there.
 *
 * @param key as in KeyboardEvent.key.
 * @param own the keys that a coach has set.
 */
export function replyOfKey(
  prompt: PromptId,
  key: string,
  own: readonly OwnKey[] = [],
): Reply | null {
  const name = keyName(key);
  const ofPain = painOf(prompt, name);
  if (ofPain !== null) return ofPain;
  const isOwn = own.some((one) => one.key === name);
  const letter = isOwn ? null : letterAt(prompt, name);
  if (letter !== null) return letter;
  const deed = deedOf(own, name);
  return deed === null ? null : meaningAt(prompt, deed);
}

function painOf(prompt: PromptId, key: string): Reply | null {
  if (prompt === 'pain/how-much' && /^[0-9]$/.test(key)) {
    return { ...NO_REPLY, result: 'pain', pain: Number(key) };
  }
  const kind = prompt === 'pain/kind' && ({ n: 'new', s: 'sharp', k: 'known' } as const)[key];
  return kind ? { ...NO_REPLY, painKind: kind } : null;
}

/** The first letters of what a question can be answered with, where no deed has them. */
function letterAt(prompt: PromptId, key: string): Reply | null {
  if (prompt === 'confirm' && key === 'y') return command('yes');
  if (prompt === 'confirm' && key === 'n') return command('no');
  return isGraded(prompt) && key === 'h' ? result('held') : null;
}

const isGraded = (prompt: PromptId) => prompt.startsWith('check/') || prompt.startsWith('set/');

function meaningAt(prompt: PromptId, deed: Deed): Reply | null {
  switch (deed) {
    case 'forward':
      if (prompt.startsWith('pain/')) return null;
      if (prompt === 'confirm') return command('yes');
      return isGraded(prompt) ? result('held') : command('ready');
    case 'back':
      return command(prompt === 'confirm' ? 'no' : 'undo');
    case 'lost':
    case 'short':
      return isGraded(prompt) ? result(deed) : null;
    case 'hurts':
      return prompt.startsWith('pain/') ? null : result('pain');
    default:
      return command(deed);
  }
}

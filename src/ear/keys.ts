import { NO_REPLY, type Command, type Reply } from '../domain/hearing/reply';
import type { PromptId } from '../domain/script';

/**
 * Two ways that pedals, remotes, arrow keys and headsets can point. Space and Enter are what
 * one-button pedals send.
 */
const FORWARD = [' ', 'Enter', 'PageDown', 'ArrowDown', 'ArrowRight', 'MediaTrackNext'];
const BACK = ['PageUp', 'ArrowUp', 'ArrowLeft', 'Backspace', 'MediaTrackPrevious'];
/** The one button of most headsets stops: it must never need a thought. */
const STOP = ['Escape', 'MediaStop', 'MediaPlayPause', 'Pause'];

const ANYWHERE: Record<string, Command> = {
  p: 'pause',
  c: 'resume',
  r: 'repeat',
  u: 'undo',
  k: 'skip',
  d: 'done',
  n: 'next',
  '?': 'help',
  '+': 'louder',
  '-': 'quieter',
};

const command = (name: Command): Reply => ({ ...NO_REPLY, command: name });
const result = (name: Reply['result']): Reply => ({ ...NO_REPLY, result: name });

/**
 * What a key means at a prompt, or null where it means nothing there. Forward is "held" at a check
 * or set, "yes" at a confirmation, "ready" during work; back is "undo", at a confirmation "no".
 * Neither ever answers about pain: digits 0 to 9 give its number, n, s and k its kind.
 *
 * @param key as in KeyboardEvent.key.
 */
export function replyOfKey(prompt: PromptId, key: string): Reply | null {
  if (STOP.includes(key)) return command('stop');
  const name = key.length === 1 ? key.toLowerCase() : key;
  const own = ownOf(prompt, name);
  if (own !== undefined) return own;
  if (BACK.includes(key)) return command('undo');
  const anywhere = Object.hasOwn(ANYWHERE, name) ? ANYWHERE[name] : undefined;
  return anywhere === undefined ? null : command(anywhere);
}

/** What a key means at this prompt alone. */
function ownOf(prompt: PromptId, key: string): Reply | undefined {
  const forward = FORWARD.includes(key);
  if (prompt === 'pain/how-much') {
    return /^[0-9]$/.test(key) ? { ...NO_REPLY, result: 'pain', pain: Number(key) } : undefined;
  }
  if (prompt === 'pain/kind') {
    const kind = ({ n: 'new', s: 'sharp', k: 'known' } as const)[key];
    return kind && { ...NO_REPLY, painKind: kind };
  }
  if (prompt === 'confirm') {
    if (forward || key === 'y') return command('yes');
    return BACK.includes(key) || key === 'n' ? command('no') : undefined;
  }
  if (prompt.startsWith('check/') || prompt.startsWith('set/')) {
    if (forward || key === 'h') return result('held');
    const named = ({ l: 'lost', s: 'short', x: 'pain' } as const)[key];
    return named && result(named);
  }
  return forward ? command('ready') : undefined;
}

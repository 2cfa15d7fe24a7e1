import type { OwnKey } from '../domain/hearing/deeds';
import type { Reply } from '../domain/hearing/reply';
import type { PromptId } from '../domain/script';
import type { Cancel, Ear, Hearing } from '../ports';
import { replyOfKey } from './keys';

/** What is needed of a KeyboardEvent. */
export interface KeyPress {
  key: string;
  repeat?: boolean;
  ctrlKey?: boolean;
  altKey?: boolean;
  metaKey?: boolean;
  target?: EventTarget | null;
  preventDefault?: () => void;
}

/** Replies given by touch, keys, pedal or headset; they need no understanding. */
export interface Hands extends Ear {
  /** A reply from a touched control. */
  reply(reply: Reply): void;
  /** A pressed key (see keys.ts); true where it was taken, and its usual effect prevented. */
  key(press: KeyPress): boolean;
  /** From now on these keys do what a coach has set; all others what they come with. */
  setKeys(own: readonly OwnKey[]): void;
}

/** Things on a page that take these keys themselves. */
const TYPES_INTO = 'input, textarea, select, [contenteditable]';
const PRESSES = 'button, a[href], summary, [role="button"]';

/** An ear for hands. At no prompt yet, keys mean what they mean during work. */
export function createHands(): Hands {
  const listeners = new Set<(hearing: Hearing) => void>();
  let attended: PromptId = 'idle';
  let own: readonly OwnKey[] = [];
  const reply = (given: Reply) => {
    for (const listener of [...listeners])
      listener({ type: 'reply', reply: given, prompt: attended });
  };
  return {
    attend: (prompt) => {
      attended = prompt;
    },
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    reply,
    key: (press) => {
      // A key held down is one press: a pedal under a foot must not answer the next question.
      if (press.repeat || press.ctrlKey || press.altKey || press.metaKey) return false;
      if (isTakenBy(press)) return false;
      const given = replyOfKey(attended, press.key, own);
      if (given === null) return false;
      press.preventDefault?.();
      reply(given);
      return true;
    },
    setKeys: (keys) => {
      own = keys;
    },
  };
}

function isTakenBy({ key, target }: KeyPress): boolean {
  if (target === null || target === undefined || !('closest' in target)) return false;
  const element = target as Element;
  if (element.closest(TYPES_INTO) !== null) return key !== 'Escape';
  return (key === ' ' || key === 'Enter') && element.closest(PRESSES) !== null;
}

/** Media actions as a headset sends them where a page plays sound, and the keys they stand for. */
const HEADSET: [MediaSessionAction, string][] = [
  ['play', 'MediaPlayPause'],
  ['pause', 'MediaPlayPause'],
  ['stop', 'MediaStop'],
  ['nexttrack', 'MediaTrackNext'],
  ['previoustrack', 'MediaTrackPrevious'],
];

/** Joins hands to the keys of a page and to its headset, where the browser offers one. */
export function attachHands(
  hands: Hands,
  page: {
    addEventListener(type: 'keydown', run: (event: KeyboardEvent) => void): void;
    removeEventListener(type: 'keydown', run: (event: KeyboardEvent) => void): void;
  },
  headset: Pick<MediaSession, 'setActionHandler'> | undefined,
): Cancel {
  const onKey = (event: KeyboardEvent) => void hands.key(event);
  page.addEventListener('keydown', onKey);
  const detach = attachHeadset(hands, headset);
  return () => {
    page.removeEventListener('keydown', onKey);
    detach();
  };
}

/** Joins hands to the buttons of a headset alone, where the browser hands them on. */
export function attachHeadset(
  hands: Pick<Hands, 'key'>,
  headset: Pick<MediaSession, 'setActionHandler'> | undefined,
): Cancel {
  const handle = (action: MediaSessionAction, run: (() => void) | null) => {
    try {
      headset?.setActionHandler(action, run);
    } catch {
      // This browser does not know the action.
    }
  };
  for (const [action, key] of HEADSET) handle(action, () => hands.key({ key }));
  return () => {
    for (const [action] of HEADSET) handle(action, null);
  };
}

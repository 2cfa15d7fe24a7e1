/** What keys, pedals, remotes and headset buttons do: as they come, and as a coach has set them. */

/**
 * `forward` is "held" at a check or set, "yes" at a confirmation, "ready" during work; `back` is
 * "undo", at a confirmation "no". `lost`, `short` and `hurts` grade. Others are commands.
 */
export const DEEDS = [
  ...(['forward', 'back', 'lost', 'short', 'hurts'] as const),
  ...(['stop', 'pause', 'resume'] as const),
  ...(['repeat', 'undo', 'skip', 'done', 'rep', 'next', 'next-person', 'time-left'] as const),
  ...(['help', 'louder', 'quieter', 'slower', 'faster'] as const),
] as const;
export type Deed = (typeof DEEDS)[number];

/** A key that does not do what it comes with. */
export interface OwnKey {
  /** As `keyName` gives it. */
  key: string;
  /** Null: it does nothing. */
  deed: Deed | null;
}

/** Always stops, whatever a coach sets. */
export const SURE_STOP = 'Escape';
/** The one button of most headsets. */
export const HEADSET_BUTTON = 'MediaPlayPause';

/**
 * Two ways that pedals, remotes, arrow keys and headsets can point; Space and Enter are what
 * one-button pedals send. The one button of most headsets stops: it must never need a thought.
 */
const USUAL: Readonly<Record<Deed, readonly string[]>> = {
  forward: [' ', 'Enter', 'PageDown', 'ArrowDown', 'ArrowRight', 'MediaTrackNext'],
  back: ['PageUp', 'ArrowUp', 'ArrowLeft', 'Backspace', 'MediaTrackPrevious'],
  lost: ['l'],
  short: ['s'],
  hurts: ['x'],
  stop: [SURE_STOP, 'MediaStop', HEADSET_BUTTON, 'Pause'],
  pause: ['p'],
  resume: ['c'],
  repeat: ['r'],
  undo: ['u'],
  skip: ['k'],
  done: ['d'],
  rep: [],
  next: ['n'],
  'next-person': ['o'],
  'time-left': ['t'],
  help: ['?'],
  louder: ['+'],
  quieter: ['-'],
  slower: [],
  faster: [],
};

/** Some headsets send their one button as one of two, by what they believe is going on. */
const SAME_BUTTON = ['MediaPlay', 'MediaPause'];

/** One name for a key (as in KeyboardEvent.key), for a letter in either case. */
export const keyName = (key: string): string =>
  SAME_BUTTON.includes(key) ? HEADSET_BUTTON : key.length === 1 ? key.toLowerCase() : key;

const usualDeed = (key: string): Deed | null =>
  DEEDS.find((deed) => USUAL[deed].includes(key)) ?? null;

/** What a key does; null where it does nothing. */
export function deedOf(own: readonly OwnKey[], key: string): Deed | null {
  const name = keyName(key);
  const set = name === SURE_STOP ? undefined : own.find((one) => one.key === name);
  return set === undefined ? usualDeed(name) : set.deed;
}

/** The keys of a deed: those that it comes with first. */
export const keysOf = (own: readonly OwnKey[], deed: Deed): string[] =>
  [...new Set([...USUAL[deed], ...own.map(({ key }) => key)])].filter(
    (key) => deedOf(own, key) === deed,
  );

/**
 * Why a key cannot be chosen: `stops`: it always does; `moves`: it goes from control to control;
 * `held-with-others`: it does nothing alone; `nameless`: it does not tell which it is.
 */
export type Refusal = 'stops' | 'moves' | 'held-with-others' | 'nameless';

const HELD_WITH_OTHERS =
  /^(Shift|Control|Alt|AltGraph|Meta|OS|Super|Hyper|Fn|FnLock|Symbol|SymbolLock|CapsLock|NumLock|ScrollLock)$/;
const NAMELESS = ['', 'Unidentified', 'Dead', 'Process', 'Compose'];
/** Longer than any name of a key. */
const NAME_MOST = 40;

/** Null where a coach may choose this key. */
export function refusalOf(key: string): Refusal | null {
  if (key === SURE_STOP) return 'stops';
  if (key === 'Tab') return 'moves';
  if (HELD_WITH_OTHERS.test(key)) return 'held-with-others';
  return NAMELESS.includes(key) || key.length > NAME_MOST ? 'nameless' : null;
}

/** The same keys, but this one does that alone; null: nothing. One that is refused stays as it is. */
export function withKey(own: readonly OwnKey[], key: string, deed: Deed | null): OwnKey[] {
  if (refusalOf(key) !== null) return [...own];
  const name = keyName(key);
  const others = own.filter((one) => one.key !== name);
  return deed === usualDeed(name) ? others : [...others, { key: name, deed }];
}

/** Own keys out of what `JSON.stringify` made of them; null where it is no such text. */
export function ownKeysFrom(text: string): OwnKey[] | null {
  let kept: unknown;
  try {
    kept = JSON.parse(text);
  } catch {
    return null;
  }
  if (!Array.isArray(kept)) return null;
  let own: OwnKey[] = [];
  for (const one of kept as unknown[]) {
    if (!isOwnKey(one) || refusalOf(one.key) !== null) return null;
    own = withKey(own, one.key, one.deed);
  }
  return own;
}

function isOwnKey(one: unknown): one is OwnKey {
  if (typeof one !== 'object' || one === null || !('key' in one) || !('deed' in one)) return false;
  const isDeed = one.deed === null || (DEEDS as readonly unknown[]).includes(one.deed);
  return typeof one.key === 'string' && isDeed;
}

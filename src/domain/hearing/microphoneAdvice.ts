/** A tenth of a second of sound, as the ear tells it. Decibels below full scale: 0 is the loudest. */
export interface SoundHeard {
  seconds: number;
  decibels: number;
  /** What the detector took it for; `mixed` is neither for sure. */
  sort: 'speech' | 'silence' | 'mixed';
  /** Share of it that was cut off at the top, 0 to 1. */
  clippedShare: number;
  /** What lies under speech lately. */
  noiseDecibels: number;
}

/** What a check of the microphone came to: replies that were asked for, and how they came in. */
export interface MicrophoneMeasured {
  asked: number;
  /** Of those: acted on as they were meant; asked back; taken for something else; not heard. */
  right: number;
  almost: number;
  other: number;
  unheard: number;
  /** Any sound at all: a microphone that is muted tells none. */
  soundArrives: boolean;
  /** How far the voice stood above the room; null where no voice was found. */
  aboveNoiseDecibels: number | null;
  /** Below full scale; null where it could not be measured. */
  noiseDecibels: number | null;
  /** Of what was spoken, 0 to 1. */
  clippedShare: number;
  /** The voice above Sayso's own in the same microphone; null where its own did not come through. */
  aboveOwnVoiceDecibels: number | null;
  /** The browser takes Sayso's own sound out of the microphone. */
  hearsOverSound: boolean;
  /** Somebody talked while nobody was asked to. */
  othersTalked: boolean;
  hasCallWord: boolean;
  /** The voice check was done. */
  isFitted: boolean;
  recogniser: 'small' | 'strong';
  /** The better recogniser may still come. */
  isBetterComing: boolean;
}

/** How well it hears from there, the best first. */
export const STANDINGS = ['well', 'barely', 'badly', 'nothing'] as const;
export type Standing = (typeof STANDINGS)[number];

export type AdviceTo =
  | 'begin'
  | 'look-at-microphone'
  | 'talk-softer'
  | 'come-nearer'
  | 'use-earbuds'
  | 'turn-it'
  | 'set-call-word'
  | 'check-voice'
  | 'talk-slower'
  | 'wait-for-better'
  | 'use-buttons';

export type Because =
  | 'all-heard'
  | 'no-sound'
  | 'no-voice'
  | 'distorted'
  | 'noise'
  | 'loud-room'
  | 'own-voice'
  | 'others'
  | 'mistaken'
  | 'small-recogniser';

export interface Advice {
  to: AdviceTo;
  because: Because;
  /** Of `come-nearer`: the share of the distance that is left. */
  distanceShare?: 0.75 | 0.5 | 0.25;
}

/** From here replies are heard well; below the second they begin to be lost (DEVELOPERS.md). */
export const HEARD_WELL_DECIBELS = 10;
export const LOST_BELOW_DECIBELS = 8;
/** So much of speech may be cut off at the top. */
export const MOST_CLIPPED = 0.1;
/**
 * Half the distance to a voice gives 6 dB (inverse-square law); in a hard room it gives less, so
 * that who comes nearer checks once more.
 */
const HALF_GIVES_DECIBELS = 6;
const QUARTER_OF_THE_WAY_GIVES_DECIBELS = 2.5;
/** Two lines are remembered; more are not. */
const MOST_ADVICE = 2;

/** How loud a room is by itself, below full scale. Microphones differ; practice, no source. */
export type Room = 'quiet' | 'busy' | 'loud';
export const roomOf = (noiseDecibels: number): Room =>
  noiseDecibels < -55 ? 'quiet' : noiseDecibels < -40 ? 'busy' : 'loud';

export const isDistorted = ({ clippedShare }: MicrophoneMeasured) => clippedShare > MOST_CLIPPED;

/** A "stop" said while Sayso speaks may be lost. */
export const isLostOverOwnVoice = (measured: MicrophoneMeasured): boolean =>
  !measured.hearsOverSound ||
  (measured.aboveOwnVoiceDecibels !== null && measured.aboveOwnVoiceDecibels < LOST_BELOW_DECIBELS);

/** How well it hears from there. */
export function standingOf(measured: MicrophoneMeasured): Standing {
  const { asked, right, almost, other, aboveNoiseDecibels: above } = measured;
  if (right + almost + other === 0 && above === null) return 'nothing';
  const isNearlyLost = above !== null && above < LOST_BELOW_DECIBELS;
  if (right === 0 || (isNearlyLost && right < asked)) return 'badly';
  const isClear = above === null || above >= HEARD_WELL_DECIBELS;
  return right === asked && isClear && !isDistorted(measured) ? 'well' : 'barely';
}

/**
 * What to do about it, the most useful first, two at most and one at least. `before`: how it stood
 * at the check before, since what did not help is not advised alone once more.
 */
export function adviceOf(measured: MicrophoneMeasured, before: Standing | null = null): Advice[] {
  const standing = standingOf(measured);
  if (standing === 'nothing') return nothingHeard(measured);
  const extras = aside(measured);
  if (standing === 'well')
    return unique([{ to: 'begin', because: 'all-heard' }, ...extras]).slice(0, MOST_ADVICE);
  const all = unique([
    ...(isDistorted(measured) ? [{ to: 'talk-softer', because: 'distorted' } as const] : []),
    ...againstNoise(measured),
    ...againstMistakes(measured),
    ...extras,
  ]);
  if (before !== 'badly' || standing !== 'badly') return all.slice(0, MOST_ADVICE);
  // The second time that little is heard: what came first may be tried, or the hands be used.
  const [first] = all;
  const buttons: Advice = { to: 'use-buttons', because: first?.because ?? 'mistaken' };
  return unique([...(first === undefined ? [] : [first]), buttons]);
}

function nothingHeard({ soundArrives }: MicrophoneMeasured): Advice[] {
  if (!soundArrives) return [{ to: 'look-at-microphone', because: 'no-sound' }];
  return [
    { to: 'come-nearer', because: 'no-voice', distanceShare: 0.5 },
    { to: 'look-at-microphone', because: 'no-voice' },
  ];
}

function againstNoise({ aboveNoiseDecibels, noiseDecibels }: MicrophoneMeasured): Advice[] {
  if (aboveNoiseDecibels === null) return [];
  const lacking = HEARD_WELL_DECIBELS - aboveNoiseDecibels;
  const because = 'noise';
  const earbuds: Advice = { to: 'use-earbuds', because };
  if (lacking <= 0) return [];
  if (lacking > 2 * HALF_GIVES_DECIBELS) return [earbuds, { to: 'use-buttons', because }];
  const nearer = (distanceShare: 0.75 | 0.5 | 0.25): Advice[] => [
    { to: 'come-nearer', because, distanceShare },
  ];
  if (lacking > HALF_GIVES_DECIBELS) return [earbuds, ...nearer(0.25)];
  const isLoud = noiseDecibels !== null && roomOf(noiseDecibels) === 'loud';
  return [
    ...nearer(lacking <= QUARTER_OF_THE_WAY_GIVES_DECIBELS ? 0.75 : 0.5),
    isLoud ? { to: 'turn-it', because: 'loud-room' } : earbuds,
  ];
}

/** What was loud enough, and still not heard as it was meant. */
function againstMistakes(measured: MicrophoneMeasured): Advice[] {
  const { asked, right, recogniser, isBetterComing, isFitted } = measured;
  if (right === asked) return [];
  const isBetterAwaited = recogniser === 'small' && isBetterComing;
  return [
    ...(isBetterAwaited ? [{ to: 'wait-for-better', because: 'small-recogniser' } as const] : []),
    { to: isFitted ? 'talk-slower' : 'check-voice', because: 'mistaken' },
  ];
}

/** What may go wrong although replies are heard. */
function aside(measured: MicrophoneMeasured): Advice[] {
  const { othersTalked, hasCallWord } = measured;
  return [
    ...(isLostOverOwnVoice(measured) ? [{ to: 'use-earbuds', because: 'own-voice' } as const] : []),
    ...(othersTalked && !hasCallWord ? [{ to: 'set-call-word', because: 'others' } as const] : []),
  ];
}

/** Each thing to do once, for its first reason. */
const unique = (all: Advice[]): Advice[] =>
  all.filter((each, at) => all.findIndex(({ to }) => to === each.to) === at);

/** Whether it hears better than at the check before; nothing that could be chance counts. */
export function comparedWith(
  before: MicrophoneMeasured,
  now: MicrophoneMeasured,
): 'better' | 'same' | 'worse' {
  const rank = (measured: MicrophoneMeasured) => -STANDINGS.indexOf(standingOf(measured));
  const louder = (now.aboveNoiseDecibels ?? 0) - (before.aboveNoiseDecibels ?? 0);
  const isKnown = before.aboveNoiseDecibels !== null && now.aboveNoiseDecibels !== null;
  const change =
    rank(now) - rank(before) ||
    now.right - before.right ||
    (isKnown && Math.abs(louder) >= 2 ? louder : 0);
  return change > 0 ? 'better' : change < 0 ? 'worse' : 'same';
}

import {
  comparedWith,
  HEARD_WELL_DECIBELS,
  type Advice,
  type AdviceTo,
  type Because,
  type MicrophoneMeasured,
} from '../../domain/hearing/microphoneAdvice';
import type { Advised } from '../../screens/microphone/state';
import type { ReplyHeard } from '../../session/microphoneCheck';
import type { CheckLines, MicrophoneResult } from '../../session/microphoneCheckMachine';

const NEARER = {
  0.75: 'Come a quarter of the way nearer.',
  0.5: 'Come nearer: half the distance.',
  0.25: 'Come much nearer: a quarter of the distance.',
} as const;

const LOOK: Partial<Record<Because, string>> = {
  'no-sound':
    'No sound comes from the microphone. See whether it is muted, not allowed, or used by another app.',
  'no-voice': 'See whether the right microphone is in use, and nothing covers it.',
};

const TO_DO: Record<AdviceTo, (advice: Advice) => string> = {
  begin: () => 'It hears you well from there.',
  'look-at-microphone': ({ because }) => LOOK[because] ?? 'See whether the microphone is muted.',
  'talk-softer': () => 'Talk in your usual voice: closer rather than louder.',
  'come-nearer': ({ distanceShare = 0.5 }) => NEARER[distanceShare],
  'use-earbuds': ({ because }) =>
    because === 'own-voice'
      ? 'Use earbuds, or turn my voice down.'
      : 'Use earbuds or a clip-on microphone.',
  'turn-it': () => 'Turn the phone to you, away from loudspeaker and fan.',
  'set-call-word': () => 'Set a call word: then only what follows it counts.',
  'check-voice': () => 'Do the voice check: then it knows how you say them.',
  'talk-slower': () => 'Say it a little slower, or use the buttons.',
  'wait-for-better': () => 'The better recogniser is still on its way: check again in a minute.',
  'use-buttons': () => 'Use touch, keys or a pedal from there.',
};

const whole = (decibels: number) => Math.round(decibels);

/** "14 decibels above the room": how far the voice stood out. */
const aboveRoom = ({ aboveNoiseDecibels: above }: MicrophoneMeasured): string =>
  above === null
    ? 'The room was not measured.'
    : above <= 0
      ? `Your voice drowned in the room; from ${HEARD_WELL_DECIBELS} decibels above it on replies are heard well.`
      : `Your voice stood ${whole(above)} decibels above the room; from ${HEARD_WELL_DECIBELS} on replies are heard well.`;

const BECAUSE: Record<Because, (measured: MicrophoneMeasured) => string> = {
  'all-heard': ({ right, aboveNoiseDecibels: above }) =>
    above === null
      ? `${right} of ${right} replies right.`
      : `${right} of ${right} replies right, ${whole(above)} decibels above the room.`,
  'no-sound': () => 'It was silent all along, the room too.',
  'no-voice': () => 'The room was heard, but nobody who spoke.',
  distorted: ({ clippedShare }) =>
    `Too loud for this microphone: ${Math.max(1, Math.round(100 * clippedShare))} % of what you said was cut off.`,
  noise: aboveRoom,
  'loud-room': () => 'The room is loud by itself.',
  'own-voice': ({ hearsOverSound }) =>
    hearsOverSound
      ? 'My own voice is almost as loud in this microphone as you are, so a “stop” said over it may be lost.'
      : 'This microphone cannot take my own voice out, so a “stop” said over it may be lost.',
  others: () => 'Others were heard while you were silent.',
  mistaken: ({ asked, right }) =>
    `Loud enough, but ${asked - right} of ${asked} not as you meant it.`,
  'small-recogniser': () => 'The small recogniser heard this; it mistakes more.',
};

/** Advice as it is shown and spoken, with the reason of each. */
export const advisedOf = ({ advice, measured }: MicrophoneResult): Advised[] =>
  advice.map((each) => ({
    to: each.to,
    words: TO_DO[each.to](each),
    because: BECAUSE[each.because](measured),
  }));

const CHANGE = { better: 'Better than before.', worse: 'Not as good as before.', same: null };

const TOLD: Record<ReplyHeard['how'], (heard: string) => string> = {
  right: (heard) => `Right: ${heard}.`,
  almost: (heard) => `Nearly. I heard: ${heard}.`,
  other: (heard) => `I heard something else: ${heard}.`,
  unheard: () => 'I did not hear that one.',
};

/** What the check says for itself. */
export const CHECK_LINES: CheckLines = {
  stand: 'Stand where you will work. Then be quiet for a moment.',
  ask: ({ text }, isAgain) => (isAgain ? `Once more. Say: ${text}.` : `Say: ${text}.`),
  tell: ({ how, heard }) => TOLD[how](heard ?? ''),
  advise: (result, before) => [
    ...(before === null ? [] : [CHANGE[comparedWith(before.measured, result.measured)] ?? '']),
    ...advisedOf(result).map(({ words }) => words),
    ...(result.standing === 'well' ? [] : ['To check once more, say: again.']),
  ],
};

import type { VoiceChange } from '../ports';

/** How lines are spoken at present. */
export interface Manner {
  /** Amplitude, 0 to 1. */
  volume: number;
  /** Duration factor; 1 is the usual pace, larger is slower. */
  stretch: number;
}

/** About 4 dB a step, then twice as far down, so that "quieter" is heard at once. */
const VOLUMES = [0.16, 0.25, 0.4, 0.63, 1];
/** About a tenth a step: more than the 1.5 % that is heard, less than sounds hurried. */
const STRETCHES = [0.8, 0.89, 1, 1.13, 1.27, 1.43];

/** One step below the loudest, so that "louder" is heard too. */
export const USUAL_MANNER: Manner = { volume: 0.63, stretch: 1 };

/** The manner one step louder, quieter, slower or faster; the same where it is at its limit. */
export const adjusted = (manner: Manner, change: VoiceChange): Manner => {
  switch (change) {
    case 'louder':
      return { ...manner, volume: stepped(VOLUMES, manner.volume, 1) };
    case 'quieter':
      return { ...manner, volume: stepped(VOLUMES, manner.volume, -1) };
    case 'slower':
      return { ...manner, stretch: stepped(STRETCHES, manner.stretch, 1) };
    case 'faster':
      return { ...manner, stretch: stepped(STRETCHES, manner.stretch, -1) };
  }
};

const stepped = (steps: number[], from: number, by: number): number =>
  steps[steps.indexOf(from) + by] ?? from;

/** Words a minute that the slowest usual voices speak; estimates must not be too short. */
const WORDS_PER_MINUTE = 130;

/** A generous guess at how long a voice that is not ours will speak a text, in seconds. */
export const estimatedSeconds = (text: string, { stretch }: Manner): number =>
  stretch * (0.5 + (text.split(/\s+/).filter(Boolean).length * 60) / WORDS_PER_MINUTE);

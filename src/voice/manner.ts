import type { Way } from '../domain/areas';
import type { VoiceChange } from '../ports';
import { USUAL_WORDS_PER_MINUTE } from './pace';

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

/** The one manner of voices and counts that share it (counts keep their own pace); a change counts from the next line on. */
export interface SharedManner {
  now(): Manner;
  adjust(change: VoiceChange): void;
  /**
   * At the pace of this way of running from now on, as `athlete` (by id) wants to be spoken to;
   * null: nobody in particular.
   */
  speakFor(way: Way, athlete?: string | null): void;
  /** Forgets how all others were spoken to: the device keeps these people alone, by id. */
  keepOnly(athletes: string[]): void;
}

/** Keeps how loud and how fast each athlete, by id, wants to be spoken to; null: nobody in particular. */
export interface KeptManners {
  load(athlete: string | null): Manner;
  save(athlete: string | null, manner: Manner): void;
  /** What is kept for nobody in particular stays. */
  keepOnly(athletes: string[]): void;
}

/** Many listen farther away, and move at once: 110 to 130 words a minute (common practice, no source). */
const GROUP_WORDS_PER_MINUTE = 120;
const PACE_STRETCHES: Record<Way, number> = {
  'hands-on': 1,
  alone: 1,
  group: USUAL_WORDS_PER_MINUTE / GROUP_WORDS_PER_MINUTE,
};

/** Begins with the manner for nobody in particular. */
export function sharedManner(
  kept: KeptManners = {
    ...{ load: () => USUAL_MANNER, save: () => undefined, keepOnly: () => undefined },
  },
): SharedManner {
  let athlete: string | null = null;
  let manner = kept.load(athlete);
  let paceStretch = 1;
  return {
    now: () => ({ ...manner, stretch: manner.stretch * paceStretch }),
    adjust(change) {
      manner = adjusted(manner, change);
      kept.save(athlete, manner);
    },
    speakFor(way, to = null) {
      paceStretch = PACE_STRETCHES[way];
      if (to === athlete) return;
      athlete = to;
      manner = kept.load(athlete);
    },
    keepOnly(athletes) {
      kept.keepOnly(athletes);
      if (athlete !== null && !athletes.includes(athlete)) manner = kept.load(athlete);
    },
  };
}

/** A manner that was kept; null where it is none that the steps can come to. */
export function mannerFrom(kept: unknown): Manner | null {
  if (typeof kept !== 'object' || kept === null) return null;
  const { volume, stretch } = kept as Partial<Record<keyof Manner, unknown>>;
  const known = {
    volume: VOLUMES.find((each) => each === volume),
    stretch: STRETCHES.find((each) => each === stretch),
  };
  return known.volume === undefined || known.stretch === undefined
    ? null
    : { volume: known.volume, stretch: known.stretch };
}

const stepped = (steps: number[], from: number, by: number): number =>
  steps[steps.indexOf(from) + by] ?? from;

/** Words a minute that the slowest usual voices speak; estimates must not be too short. */
const WORDS_PER_MINUTE = 130;

/** A generous guess at how long a voice that is not ours will speak a text, in seconds. */
export const estimatedSeconds = (text: string, { stretch }: Manner): number =>
  stretch * (0.5 + (text.split(/\s+/).filter(Boolean).length * 60) / WORDS_PER_MINUTE);

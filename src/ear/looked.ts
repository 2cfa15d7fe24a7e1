import type { HeardWords, Look } from './recognising';
import { HEARD_RATE } from './resampling';

/** A phone is clearest within it: so much more on both sides is still the word's. */
const HALF_PHONE_SECONDS = 0.05;

/** What was taken to have been said, and what it was made from. */
export interface Looked extends Look {
  /** The end of the sound that was looked at, and when it was known what is in it. */
  atSeconds: number;
  knownAtSeconds: number;
  spokenFrames: number;
  silenceSeconds: number;
  /** Looks in a row that believed these words. */
  agreed: number;
  /** Of the loudest part of these words. */
  decibels: number;
  /** Whether they would be acted on, were they as loud as the coach. */
  isSure: boolean;
}

/** The part of the sound in which the words lie. */
export function wordsOf(
  { spokenSeconds, silenceSeconds }: HeardWords,
  sound: Float32Array,
): Float32Array {
  const samples = (seconds: number) => Math.round(seconds * HEARD_RATE);
  const to = sound.length - samples(Math.max(0, silenceSeconds - HALF_PHONE_SECONDS));
  const from = to - samples(spokenSeconds + 2 * HALF_PHONE_SECONDS);
  return sound.subarray(Math.max(0, from), to);
}

export { planWarmUp, spokenSeconds } from '../../domain/warmUp/planning';
import type { WarmUpPlan } from '../../domain/warmUp/planning';
import { soundFileParts } from '../../mixing/soundFile';
import type { Speak } from '../../mixing/spoken';
import { warmUpToMix } from '../../mixing/warmUp';

/**
 * The whole of a plan as one sound file, made part by part so that the page goes on. Null where
 * `goesOn` was false after a part. Rejects where the voice cannot be had or memory ends.
 */
export async function soundFileOf(
  plan: WarmUpPlan,
  voice: { secondsOf: (text: string) => number; stretch: number; speak: Speak },
  goesOn: (share: number) => boolean,
): Promise<Blob | null> {
  const toMix = warmUpToMix(plan, voice.secondsOf, voice.stretch);
  const parts: Uint8Array<ArrayBuffer>[] = [];
  for await (const { bytes, share } of soundFileParts(toMix, voice.speak)) {
    parts.push(bytes);
    if (!goesOn(share)) return null;
  }
  return new Blob(parts, { type: 'audio/wav' });
}

/** Why it was not made, and what to do. */
export const soundTrouble = (problem: unknown): string =>
  problem instanceof RangeError
    ? 'This device has too little memory for the sound file. Close other pages, or make it end sooner, and save it again.'
    : 'The voice could not be had, so no sound file was made. Connect to the network once, and save it again.';

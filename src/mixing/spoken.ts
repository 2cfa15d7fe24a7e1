/** Lines of the shipped voice as they lie in a sound file. */
import type { Sound } from '../sounding/playing';
import type { Manner } from '../voice/manner';
import { SAYSO_VOICE, type ShippedVoice } from '../voice/voices';

/** Speech that sounded, or is to: from when to when, and whether it was cut off. */
export interface Said {
  text: string;
  fromSeconds: number;
  toSeconds: number;
  isCutOff: boolean;
  /** How it was spoken: the pace of the way of running, "slower" and "louder". */
  manner: Manner;
  /** A count: falls on `fromSeconds`, so its sound begins a little before. */
  isCount?: true;
}

/** The shipped synthesiser, here or in a worker. */
export type Speak = (text: string, voice: ShippedVoice) => Sound | Promise<Sound>;

/** A cue that is cut off fades this long, as in the app. */
const FADE_SECONDS = 0.01;

/**
 * The line at its pace and full volume: a little faster where it would outlast its planned time, or
 * cut where it was cut off. Rejects where the synthesiser does.
 */
export async function spokenSamples(
  speak: Speak,
  { text, fromSeconds, toSeconds, isCutOff, manner }: Said,
  sampleRate: number,
): Promise<Float32Array> {
  const slot = Math.round((toSeconds - fromSeconds) * sampleRate);
  const voice = { ...SAYSO_VOICE, stretch: SAYSO_VOICE.stretch * manner.stretch };
  const { samples } = await speak(text, voice);
  if (samples.length <= slot) return samples;
  if (!isCutOff) {
    // The pace does not stretch a line exactly in proportion; the last hundredths are let go.
    const stretch = voice.stretch * (slot / samples.length) * 0.98;
    return (await speak(text, { ...voice, stretch })).samples;
  }
  const cut = samples.slice(0, slot);
  const fade = Math.min(cut.length, Math.round(FADE_SECONDS * sampleRate));
  for (let at = 0; at < fade; at += 1) {
    cut[cut.length - 1 - at] = (cut[cut.length - 1 - at] ?? 0) * (at / fade);
  }
  return cut;
}

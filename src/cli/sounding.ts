import { perceivedBeatSeconds } from '../tones/perceivedBeat';
import { toneSamples } from '../tones/shapes';
import { waveFile } from '../tones/wave';
import { fliteInNode, SAYSO_VOICE, type Flite } from '../voice/node';
import type { Said } from './rehearsalHall';
import type { Rehearsed } from './rehearsing';

/** A cue that is cut off fades this long, as in the app. */
const FADE_SECONDS = 0.01;

/** What would be heard of a rehearsal or a warm-up: cues, tones and counts in place, 16-bit mono PCM. */
export async function soundFileOf({
  said,
  timeline,
}: Pick<Rehearsed, 'said' | 'timeline'>): Promise<Uint8Array> {
  const flite = await fliteInNode();
  const { sampleRate } = flite.synthesize('one', SAYSO_VOICE);
  const endSeconds = Math.max(
    0,
    ...said.map(({ toSeconds }) => toSeconds),
    ...timeline.map(({ atSeconds }) => atSeconds),
  );
  const mix = new Float32Array(Math.ceil((endSeconds + 1) * sampleRate));
  const add = (samples: Float32Array, atSeconds: number) => {
    const from = Math.round(atSeconds * sampleRate);
    for (let at = Math.max(0, -from); at < samples.length && from + at < mix.length; at += 1) {
      mix[from + at] = (mix[from + at] ?? 0) + (samples[at] ?? 0);
    }
  };
  // Counts, and much else, are said again and again.
  const known = new Map<string, Float32Array>();
  for (const piece of said) {
    const { text, fromSeconds, toSeconds, isCutOff, manner } = piece;
    const millisecondsLong = Math.round((toSeconds - fromSeconds) * 1000);
    const name = JSON.stringify([text, millisecondsLong, isCutOff, manner.stretch]);
    const samples = known.get(name) ?? spokenSamples(flite, piece, sampleRate);
    known.set(name, samples);
    const early = piece.isCount ? perceivedBeatSeconds(samples, sampleRate) : 0;
    const { volume } = piece.manner;
    add(
      samples.map((sample) => sample * volume),
      piece.fromSeconds - early,
    );
  }
  for (const event of timeline) {
    if (event.type === 'tone') add(toneSamples(event.name, sampleRate), event.atSeconds);
  }
  return waveFile(mix, sampleRate);
}

/**
 * The line at its pace and full volume: a little faster where it would outlast its planned time, or
 * cut where it was cut off.
 */
export function spokenSamples(
  flite: Flite,
  { text, fromSeconds, toSeconds, isCutOff, manner }: Said,
  sampleRate: number,
): Float32Array {
  const slot = Math.round((toSeconds - fromSeconds) * sampleRate);
  const voice = { ...SAYSO_VOICE, stretch: SAYSO_VOICE.stretch * manner.stretch };
  const { samples } = flite.synthesize(text, voice);
  if (samples.length <= slot) return samples;
  if (!isCutOff) {
    // The pace does not stretch a line exactly in proportion; the last hundredths are let go.
    const stretch = voice.stretch * (slot / samples.length) * 0.98;
    return flite.synthesize(text, { ...voice, stretch }).samples;
  }
  const cut = samples.slice(0, slot);
  const fade = Math.min(cut.length, Math.round(FADE_SECONDS * sampleRate));
  for (let at = 0; at < fade; at += 1) {
    cut[cut.length - 1 - at] = (cut[cut.length - 1 - at] ?? 0) * (at / fade);
  }
  return cut;
}

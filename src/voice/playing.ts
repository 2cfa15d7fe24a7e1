import type { Cancel } from '../ports';
import type { Sound } from './sound';

/** Where sound goes: an audio context and the node that leads out (a master gain). */
export interface Output {
  context: BaseAudioContext;
  destination: AudioNode;
}

/** Long enough to be free of a click, short enough to be silent at once. */
const FADE_SECONDS = 0.008;

/**
 * Plays a sound now, at `volume` 0 to 1; `ended` comes by the audio clock, not after a cancel.
 * A cancel fades out within 8 ms. Throws where the context refuses to play.
 */
export const playSound = (
  { context, destination }: Output,
  { samples, sampleRate }: Sound,
  volume: number,
  ended: () => void,
): Cancel => {
  const buffer = context.createBuffer(1, samples.length, sampleRate);
  buffer.copyToChannel(samples, 0);
  const gain = context.createGain();
  gain.gain.value = volume;
  const source = context.createBufferSource();
  source.buffer = buffer;
  source.connect(gain).connect(destination);
  let open = true;
  source.onended = () => {
    gain.disconnect();
    if (!open) return;
    open = false;
    ended();
  };
  source.start();
  return () => {
    if (!open) return;
    open = false;
    const now = context.currentTime;
    gain.gain.setValueAtTime(volume, now);
    gain.gain.linearRampToValueAtTime(0, now + FADE_SECONDS);
    source.stop(now + FADE_SECONDS);
  };
};

import type { Cancel } from '../ports';
import type { Sound } from './sound';

/** Where sound goes: an audio context and the node that leads out (a master gain). */
export interface Output {
  context: BaseAudioContext;
  destination: AudioNode;
}

/** Long enough to be free of a click, short enough to be silent at once. */
const FADE_SECONDS = 0.008;

/** How fast a line gives way to somebody who speaks. */
const TURN_SECONDS = 0.02;

/** A sound that plays. */
export interface Playing {
  /** Fades out within 8 ms, and nothing more is told. Calling it again does nothing. */
  stop: Cancel;
  /** Goes on at that volume, 0 to 1, within 20 ms. */
  turnTo(volume: number): void;
}

/**
 * Plays a sound now, at `volume` 0 to 1; `ended` comes by the audio clock, not after a stop.
 * Throws where the context refuses to play.
 */
export const playSound = (
  { context, destination }: Output,
  { samples, sampleRate }: Sound,
  volume: number,
  ended: () => void,
): Playing => {
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
  const glide = (to: number, seconds: number) => {
    const now = context.currentTime;
    gain.gain.setValueAtTime(volume, now);
    gain.gain.linearRampToValueAtTime(to, now + seconds);
    volume = to;
    return now + seconds;
  };
  source.start();
  return {
    stop() {
      if (!open) return;
      open = false;
      source.stop(glide(0, FADE_SECONDS));
    },
    turnTo(to) {
      if (open) glide(to, TURN_SECONDS);
    },
  };
};

import type { Cancel } from '../ports';

/** Mono sound, samples between -1 and 1. */
export interface Sound {
  samples: Float32Array<ArrayBuffer>;
  sampleRate: number;
}

/** Where sound goes: an audio context and the node that leads out (a master gain). */
export interface Output {
  context: BaseAudioContext;
  destination: AudioNode;
}

/** Long enough to be free of a click, short enough to be silent at once. */
const FADE_SECONDS = 0.008;

/** How fast a line gives way to somebody who speaks. */
const TURN_SECONDS = 0.02;

/** A sound that plays, or will. */
export interface Playing {
  /** Fades out within 8 ms, and nothing more is told. Calling it again does nothing. */
  stop: Cancel;
  /** Goes on at that volume, 0 to 1, within 20 ms. */
  turnTo(volume: number): void;
}

export interface PlayOptions {
  /** Amplitude, 0 to 1. */
  volume: number;
  /** When it begins, on the context's clock; at once where left out, and where that has passed. */
  atSeconds?: number;
  /** Comes by the audio clock, not after a stop. */
  ended?: () => void;
}

/** The one place where a sound is started. Throws where the context refuses to play. */
export const playSound = (
  { context, destination }: Output,
  { samples, sampleRate }: Sound,
  { volume: begin, atSeconds = 0, ended }: PlayOptions,
): Playing => {
  const buffer = context.createBuffer(1, samples.length, sampleRate);
  buffer.copyToChannel(samples, 0);
  const gain = context.createGain();
  let volume = begin;
  gain.gain.value = volume;
  const source = context.createBufferSource();
  source.buffer = buffer;
  source.connect(gain).connect(destination);
  let open = true;
  source.onended = () => {
    gain.disconnect();
    if (!open) return;
    open = false;
    ended?.();
  };
  const glide = (to: number, seconds: number) => {
    const now = context.currentTime;
    gain.gain.setValueAtTime(volume, now);
    gain.gain.linearRampToValueAtTime(to, now + seconds);
    volume = to;
    return now + seconds;
  };
  source.start(Math.max(atSeconds, context.currentTime));
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

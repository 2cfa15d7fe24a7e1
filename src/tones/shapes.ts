import type { ToneName } from '../ports';

/** One note: glides evenly in pitch from one frequency to the other, then a gap. */
interface Note {
  fromHertz: number;
  toHertz: number;
  seconds: number;
  gapSeconds: number;
}

const note = (fromHertz: number, toHertz: number, seconds: number, gapSeconds = 0): Note => ({
  fromHertz,
  toHertz,
  seconds,
  gapSeconds,
});

/**
 * Up is good, down is not, level counts: each tone differs from each other by contour and
 * length, so that it is told apart across a room. Pitches lie where small loudspeakers are loud.
 */
const SHAPES: Record<ToneName, { peak: number; notes: Note[] }> = {
  listening: { peak: 0.35, notes: [note(520, 780, 0.14)] },
  // How `accepted` begins.
  heard: { peak: 0.35, notes: [note(660, 660, 0.05)] },
  accepted: { peak: 0.6, notes: [note(660, 660, 0.09, 0.03), note(990, 990, 0.16)] },
  'not-understood': { peak: 0.6, notes: [note(520, 520, 0.14, 0.04), note(390, 390, 0.22)] },
  countdown: { peak: 0.7, notes: [note(880, 880, 0.07)] },
  begin: { peak: 0.7, notes: [note(1175, 1175, 0.45)] },
  'not-stored': {
    peak: 0.6,
    notes: [note(330, 330, 0.12, 0.08), note(330, 330, 0.12, 0.08), note(330, 330, 0.12)],
  },
  halted: { peak: 0.7, notes: [note(780, 260, 0.6)] },
  upright: { peak: 0.5, notes: [note(780, 1320, 0.1)] },
  tilted: { peak: 0.5, notes: [note(440, 300, 0.2)] },
};

/** Long enough to be free of clicks, short enough for a note of 70 ms. */
const ATTACK_SECONDS = 0.008;
const RELEASE_SECONDS = 0.03;
/** Shares of the fundamental, its octave and twelfth: heard on a phone, soft on a hall speaker. */
const HARMONICS = [0.7, 0.2, 0.1];

/** The samples of a tone, mono, between -1 and 1, beginning and ending at zero. */
export const toneSamples = (name: ToneName, sampleRate: number): Float32Array<ArrayBuffer> => {
  const { peak, notes } = SHAPES[name];
  const total = notes.reduce((sum, { seconds, gapSeconds }) => sum + seconds + gapSeconds, 0);
  const samples = new Float32Array(Math.round(total * sampleRate));
  let from = 0;
  for (const { fromHertz, toHertz, seconds, gapSeconds } of notes) {
    const length = Math.round(seconds * sampleRate);
    let phase = 0;
    for (let at = 0; at < length && from + at < samples.length; at += 1) {
      samples[from + at] =
        peak * envelope(at / sampleRate, (length - 1) / sampleRate) * wave(phase);
      const hertz = fromHertz * (toHertz / fromHertz) ** (at / length);
      phase += (2 * Math.PI * hertz) / sampleRate;
    }
    from += length + Math.round(gapSeconds * sampleRate);
  }
  return samples;
};

const wave = (phase: number): number =>
  HARMONICS.reduce((sum, share, at) => sum + share * Math.sin((at + 1) * phase), 0);

/** Raised cosine at both ends of a note. */
const envelope = (atSeconds: number, endSeconds: number): number => {
  const rise = Math.min(1, atSeconds / ATTACK_SECONDS);
  const fall = Math.min(1, (endSeconds - atSeconds) / RELEASE_SECONDS);
  return ((1 - Math.cos(Math.PI * rise)) / 2) * ((1 - Math.cos(Math.PI * fall)) / 2);
};

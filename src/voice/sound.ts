import type { Sound } from '../sounding/playing';

const HEADER_BYTES = 44;

/** Reads the synthesiser's own output: a 44-byte header, then 16-bit mono PCM. */
export const readWave = (file: Uint8Array): Sound => {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  if (file.byteLength < HEADER_BYTES) throw new Error('The shipped voice wrote no sound.');
  const samples = new Float32Array((file.byteLength - HEADER_BYTES) >> 1);
  for (let at = 0; at < samples.length; at += 1) {
    samples[at] = view.getInt16(HEADER_BYTES + at * 2, true) / 32768;
  }
  return { samples, sampleRate: view.getUint32(24, true) };
};

/** Below this share of the peak it is silence. */
const SILENCE = 0.01;
/** Kept around the speech, so that a soft first or last sound is not cut. */
const HEAD_SECONDS = 0.03;
const TAIL_SECONDS = 0.06;
/** Loudness of every line, as the root mean square of its louder parts: about -13 dB of full scale. */
const LOUDNESS = 0.22;
/** Stretches this far below the loudest are no part of the speech that is measured: 25 dB. */
const SOFT = 1 / 316;
const STRETCH_SECONDS = 0.02;
/** Where peaks begin to be rounded, so that none is clipped. */
const ROUNDED_FROM = 0.8;

/**
 * Cuts the silence at both ends, where `isClear` raises what tells words apart, brings the line to the loudness of every other (voices differ by
 * 6 dB, lines of one voice as much), rounds its peaks below full scale and eases both ends to zero.
 */
export const trimmed = ({ samples, sampleRate }: Sound, isClear = false): Sound => {
  let peak = 0;
  for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  if (peak === 0) return { samples: new Float32Array(0), sampleRate };
  const loud = (sample: number) => Math.abs(sample) > SILENCE * peak;
  const head = Math.floor(HEAD_SECONDS * sampleRate);
  const tail = Math.floor(TAIL_SECONDS * sampleRate);
  const from = Math.max(0, samples.findIndex(loud) - head);
  const to = Math.min(samples.length, samples.findLastIndex(loud) + 1 + tail);
  const cut = isClear ? clear(samples.subarray(from, to)) : samples.slice(from, to);
  const gain = LOUDNESS / loudnessOf(cut, Math.round(STRETCH_SECONDS * sampleRate));
  for (let at = 0; at < cut.length; at += 1) cut[at] = rounded((cut[at] ?? 0) * gain);
  const ease = Math.min(head, cut.length >> 1);
  for (let at = 0; at < ease; at += 1) {
    const share = at / ease;
    cut[at] = (cut[at] ?? 0) * share;
    cut[cut.length - 1 - at] = (cut[cut.length - 1 - at] ?? 0) * share;
  }
  return { samples: cut, sampleRate };
};

/** How much of the low is taken out, and of the highest, where "s" would hiss. */
const LOW = 0.65;
const HISS = 0.4;

/**
 * Raised by some 5 dB from 1.5 to 5 kHz over the fundamental: that voice is dull, and the low is
 * the first to be lost in a loud room. No longer and no shorter than it was.
 */
function clear(samples: Float32Array<ArrayBuffer>): Float32Array<ArrayBuffer> {
  return samples.map(
    (sample, at) =>
      sample - (LOW - HISS) * (samples[at - 1] ?? 0) - LOW * HISS * (samples[at - 2] ?? 0),
  );
}

/** Root mean square of the stretches that are speech, above 0 where anything sounds. */
function loudnessOf(samples: Float32Array, stretch: number): number {
  const powers: number[] = [];
  for (let from = 0; from < samples.length; from += stretch) {
    const piece = samples.subarray(from, from + stretch);
    powers.push(piece.reduce((sum, sample) => sum + sample * sample, 0) / piece.length);
  }
  const floor = Math.max(...powers) * SOFT;
  const spoken = powers.filter((power) => power >= floor);
  return Math.sqrt(spoken.reduce((sum, power) => sum + power, 0) / spoken.length);
}

const rounded = (sample: number): number => {
  const over = Math.abs(sample) - ROUNDED_FROM;
  if (over <= 0) return sample;
  const room = 1 - ROUNDED_FROM;
  return Math.sign(sample) * (ROUNDED_FROM + room * Math.tanh(over / room));
};

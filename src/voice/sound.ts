/** Mono sound, samples between -1 and 1. */
export interface Sound {
  samples: Float32Array<ArrayBuffer>;
  sampleRate: number;
}

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
const SILENCE = 0.02;
/** Kept around the speech, so that a soft first or last sound is not cut. */
const HEAD_SECONDS = 0.02;
const TAIL_SECONDS = 0.06;
const PEAK = 0.9;

/** Cuts the silence at both ends, brings the peak to 0.9 and eases both ends to zero. */
export const trimmed = ({ samples, sampleRate }: Sound): Sound => {
  let peak = 0;
  for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  if (peak === 0) return { samples: new Float32Array(0), sampleRate };
  const loud = (sample: number) => Math.abs(sample) > SILENCE * peak;
  const head = Math.floor(HEAD_SECONDS * sampleRate);
  const tail = Math.floor(TAIL_SECONDS * sampleRate);
  const from = Math.max(0, samples.findIndex(loud) - head);
  const to = Math.min(samples.length, samples.findLastIndex(loud) + 1 + tail);
  const cut = samples.slice(from, to).map((sample) => (sample * PEAK) / peak);
  const ease = Math.min(head, cut.length >> 1);
  for (let at = 0; at < ease; at += 1) {
    const gain = at / ease;
    cut[at] = (cut[at] ?? 0) * gain;
    cut[cut.length - 1 - at] = (cut[cut.length - 1 - at] ?? 0) * gain;
  }
  return { samples: cut, sampleRate };
};

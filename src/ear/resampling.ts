/** What the recogniser and the voice detector hear. */
export const HEARD_RATE = 16000;

const ZERO_CROSSINGS = 16;

/**
 * Any rate to 16 kHz by a windowed sinc, cut off below half of the lower rate so that nothing
 * folds back. Mono, -1 to 1.
 */
export function resampled(samples: Float32Array, sampleRate: number): Float32Array {
  if (sampleRate === HEARD_RATE) return samples;
  const step = sampleRate / HEARD_RATE;
  const cutoff = 0.95 * Math.min(1, 1 / step);
  const reach = ZERO_CROSSINGS / cutoff;
  const out = new Float32Array(Math.floor(samples.length / step));
  for (let index = 0; index < out.length; index += 1) {
    const centre = index * step;
    const first = Math.max(0, Math.ceil(centre - reach));
    const last = Math.min(samples.length - 1, Math.floor(centre + reach));
    let sum = 0;
    for (let at = first; at <= last; at += 1)
      sum += (samples[at] as number) * kernel((at - centre) * cutoff, ZERO_CROSSINGS);
    out[index] = sum * cutoff;
  }
  return out;
}

/** Sinc under a Hann window that ends at `reach` zero crossings. */
function kernel(x: number, reach: number): number {
  if (Math.abs(x) < 1e-9) return 1;
  const angle = Math.PI * x;
  return (Math.sin(angle) / angle) * (0.5 + 0.5 * Math.cos(angle / reach));
}

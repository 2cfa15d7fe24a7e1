/** What the recogniser and the voice detector hear. */
export const HEARD_RATE = 16000;

const ZERO_CROSSINGS = 16;

/**
 * Any rate to 16 kHz, piece by piece, by a windowed sinc that is cut off below half of the lower
 * rate so that nothing folds back. Mono, -1 to 1. It lags by half its length (about 1 ms at 48 kHz).
 */
export class Resampler {
  private readonly inputsEach: number;
  private readonly phases: Float32Array[];
  private readonly reach: number;
  private kept: Float32Array;
  /** Place of the next output among `kept`, in 1/phases of an input sample. */
  private place: number;

  /** @param sampleRate of what comes in, whole samples a second. */
  constructor(sampleRate: number) {
    const common = divisor(HEARD_RATE, sampleRate);
    const count = HEARD_RATE / common;
    this.inputsEach = sampleRate / common;
    const cutoff = sampleRate === HEARD_RATE ? 1 : 0.95 * Math.min(1, HEARD_RATE / sampleRate);
    this.reach = Math.ceil(ZERO_CROSSINGS / cutoff);
    this.phases = Array.from({ length: count }, (_, phase) =>
      Float32Array.from(
        { length: 2 * this.reach + 1 },
        (_, tap) => cutoff * kernel((tap - this.reach - phase / count) * cutoff),
      ),
    );
    this.kept = new Float32Array(this.reach);
    this.place = this.reach * count;
  }

  /** The 16 kHz samples that can be told from what has come in so far. */
  push(samples: Float32Array): Float32Array {
    const input = new Float32Array(this.kept.length + samples.length);
    input.set(this.kept);
    input.set(samples, this.kept.length);
    const count = this.phases.length;
    const out: number[] = [];
    for (
      ;
      Math.floor(this.place / count) + this.reach < input.length;
      this.place += this.inputsEach
    ) {
      const first = Math.floor(this.place / count) - this.reach;
      const taps = this.phases[this.place % count] as Float32Array;
      let sum = 0;
      for (let tap = 0; tap < taps.length; tap += 1)
        sum += (input[first + tap] as number) * (taps[tap] as number);
      out.push(sum);
    }
    const used = Math.max(0, Math.floor(this.place / count) - this.reach);
    this.kept = input.slice(used);
    this.place -= used * count;
    return Float32Array.from(out);
  }

  /** What is still owed at the end of the sound. */
  end(): Float32Array {
    return this.push(new Float32Array(this.reach));
  }
}

/** A whole sound at 16 kHz; see Resampler. */
export function resampled(samples: Float32Array, sampleRate: number): Float32Array {
  if (sampleRate === HEARD_RATE) return samples;
  const resampler = new Resampler(sampleRate);
  const body = resampler.push(samples);
  const rest = resampler.end();
  const whole = new Float32Array(body.length + rest.length);
  whole.set(body);
  whole.set(rest, body.length);
  return whole;
}

/** Sinc under a Hann window. */
function kernel(x: number): number {
  if (Math.abs(x) < 1e-9) return 1;
  if (Math.abs(x) >= ZERO_CROSSINGS) return 0;
  const angle = Math.PI * x;
  return (Math.sin(angle) / angle) * (0.5 + 0.5 * Math.cos(angle / ZERO_CROSSINGS));
}

function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}

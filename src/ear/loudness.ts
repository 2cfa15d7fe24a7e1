import { FRAME } from './detecting';

/** Three frames of 32 ms: a syllable, not a single pulse of the voice. */
const SMOOTH = 1 / 3;
/** Loud is what the loudest fifth of the last three seconds reaches. */
const WINDOW_FRAMES = 94;
const LOUD_SHARE = 0.8;
/** A reply is over when it falls this far below its own loud part, whoever talks behind it. */
const FALLS_DECIBELS = 8;
/** Over talk that was let go, a voice that stands out this far begins anew. */
const STANDS_OUT_DECIBELS = 6;

/**
 * How loud the open segment is against itself. In a room full of talk the detector hears speech
 * without end; what tells the coach's reply from the room there is that it is louder.
 */
export class Loudness {
  private readonly levels: number[] = [];
  private power: number | null = null;

  push(frame: Float32Array): void {
    const power = powerOf(frame);
    this.power = this.power === null ? power : this.power + (power - this.power) * SMOOTH;
    this.levels.push(decibelsOf(this.power));
    if (this.levels.length > WINDOW_FRAMES) this.levels.shift();
  }

  /** Whether it has fallen silent against what was said before. */
  get hasFallen(): boolean {
    return this.now < this.share(LOUD_SHARE) - FALLS_DECIBELS;
  }

  /** Whether somebody is clearly louder than most of what was heard. */
  get standsOut(): boolean {
    return this.now > this.share(0.5) + STANDS_OUT_DECIBELS;
  }

  clear(): void {
    this.levels.length = 0;
    this.power = null;
  }

  private get now(): number {
    return this.levels.at(-1) ?? -Infinity;
  }

  private share(share: number): number {
    return reachedBy(this.levels, share);
  }
}

/** Of one voice's replies this varied least: a dB less than what the loudest fifth reaches. */
const LOUDEST_SHARE = 0.9;

/** How loud the loudest tenth of the sound is, in decibels below full scale. */
export function loudestOf(samples: Float32Array): number {
  const levels: number[] = [];
  for (let at = 0; at < samples.length; at += FRAME)
    levels.push(decibelsOf(powerOf(samples.subarray(at, at + FRAME))));
  return reachedBy(levels, LOUDEST_SHARE);
}

const decibelsOf = (power: number) => 10 * Math.log10(power + 1e-10);

function powerOf(samples: Float32Array): number {
  let sum = 0;
  for (let at = 0; at < samples.length; at += 1) sum += (samples[at] as number) ** 2;
  return sum / samples.length;
}

/** What all but this share of them reach. */
function reachedBy(levels: number[], share: number): number {
  const sorted = [...levels].sort((one, other) => one - other);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? -Infinity;
}

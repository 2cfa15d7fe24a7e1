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
    let power = 0;
    for (const sample of frame) power += sample * sample;
    power /= frame.length;
    this.power = this.power === null ? power : this.power + (power - this.power) * SMOOTH;
    this.levels.push(10 * Math.log10(this.power + 1e-10));
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
    const sorted = [...this.levels].sort((one, other) => one - other);
    return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? -Infinity;
  }
}

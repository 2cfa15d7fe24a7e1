const LOUD = 0.05;
/** A beat has died away before the next: what is loud after so much silence is a new one. */
const QUIET_SECONDS = 0.25;

/** Finds where sounds begin in what it is handed piece by piece, in seconds of the sound. */
export class OnsetFinder {
  readonly onsets: number[] = [];
  private quietFrames = Infinity;
  private frames = 0;

  constructor(private readonly sampleRate: number) {}

  hear(samples: ArrayLike<number>): void {
    for (let at = 0; at < samples.length; at += 1) {
      if (Math.abs(samples[at] ?? 0) < LOUD) {
        this.quietFrames += 1;
        continue;
      }
      if (this.quietFrames > QUIET_SECONDS * this.sampleRate)
        this.onsets.push((this.frames + at) / this.sampleRate);
      this.quietFrames = 0;
    }
    this.frames += samples.length;
  }
}

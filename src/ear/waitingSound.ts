import { HEARD_RATE } from './resampling';

/** With more sound waiting than this there is no time for looks that may come later. */
const BEHIND_SECONDS = 0.2;
/** Two pieces of the microphone's. */
const FRESH_SECONDS = 0.05;

/** How much sound has come that is not worked through. */
export class WaitingSound {
  private samples = 0;

  /** @param samples that came; less than none: that are worked through. */
  add(samples: number): void {
    this.samples += samples;
  }

  get isBehind(): boolean {
    return this.samples / HEARD_RATE > BEHIND_SECONDS;
  }

  /** Whether nothing waits but what has just come. */
  get isFresh(): boolean {
    return this.samples / HEARD_RATE <= FRESH_SECONDS;
  }
}

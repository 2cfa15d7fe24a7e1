import type { Frames } from './onThePage';

const FRAME_MILLISECONDS = 1000 / 60;

/** Counts the frames that the page draws, and those that it should have drawn besides. */
export class FrameCount {
  private since = performance.now();
  private last = this.since;
  private drawn = 0;
  private dropped = 0;
  private longest = 0;

  constructor() {
    const frame = (now: number) => {
      const took = now - this.last;
      this.last = now;
      this.drawn += 1;
      this.longest = Math.max(this.longest, took);
      this.dropped += Math.max(0, Math.round(took / FRAME_MILLISECONDS) - 1);
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  }

  take(): Frames {
    const now = performance.now();
    const { drawn, dropped, longest } = this;
    const seconds = (now - this.since) / 1000;
    this.since = now;
    this.drawn = this.dropped = this.longest = 0;
    return { seconds, drawn, dropped, longestMilliseconds: longest };
  }
}

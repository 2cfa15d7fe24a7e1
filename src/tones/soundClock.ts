/** For so long a reading of the sound's clock counts. */
const KEPT_MILLISECONDS = 2000;
/** So many of the readings that are ahead of all others are of sound that was fetched in a hurry. */
const HURRIED_SHARE = 0.1;
/** The sound's clock stands still in blocks; falling back by more means that it was suspended. */
const SUSPENDED_SECONDS = 0.1;
/** Where the best of the latest readings falls back by more, the sound of a busy device stood. */
const STOOD_SECONDS = 0.012;
/** So many readings of so long see the end of a block, whatever the device. */
const LATEST_MILLISECONDS = 500;
const FEWEST_LATEST = 12;

/**
 * When the sound's clock will show what, from readings of both clocks. A reading is late by up to a
 * block of the sound device (3 to 40 ms), so the least late of the last two seconds are the truest;
 * but for a few, since a device that fell behind fetches a block or two at once (15 ms were seen).
 */
export class SoundClock {
  private readings: { atMilliseconds: number; aheadSeconds: number }[] = [];

  /** Both clocks, read at once: true time, and the `currentTime` of the sound in seconds. */
  read(nowMilliseconds: number, soundSeconds: number): void {
    const aheadSeconds = soundSeconds - nowMilliseconds / 1000;
    if (aheadSeconds < this.ahead - SUSPENDED_SECONDS) this.readings = [];
    const oldest = nowMilliseconds - KEPT_MILLISECONDS;
    this.readings = this.readings.filter(({ atMilliseconds }) => atMilliseconds >= oldest);
    this.readings.push({ atMilliseconds: nowMilliseconds, aheadSeconds });
    this.forgetBeforeStanding(nowMilliseconds);
  }

  /** What was read before the sound stood says nothing of what comes. */
  private forgetBeforeStanding(nowMilliseconds: number): void {
    const from = nowMilliseconds - LATEST_MILLISECONDS;
    const latest = this.readings.filter(({ atMilliseconds }) => atMilliseconds > from);
    const best = Math.max(...latest.map(({ aheadSeconds }) => aheadSeconds));
    if (latest.length >= FEWEST_LATEST && best < this.ahead - STOOD_SECONDS) this.readings = latest;
  }

  /** What the sound's clock shows at that true time, in seconds; after a reading. */
  soundSecondsAt(milliseconds: number): number {
    return milliseconds / 1000 + this.ahead;
  }

  private get ahead(): number {
    const leastLate = this.readings
      .map(({ aheadSeconds }) => aheadSeconds)
      .toSorted((a, b) => b - a);
    return leastLate[Math.floor(leastLate.length * HURRIED_SHARE)] ?? -Infinity;
  }
}

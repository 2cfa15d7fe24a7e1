/** For so long a reading of the sound's clock counts. */
const KEPT_MILLISECONDS = 2000;
/** So many of the readings that are ahead of all others are of sound that was fetched in a hurry. */
const HURRIED_SHARE = 0.1;
/** One reading that falls back by more means that the sound was suspended, or the page asleep. */
const SUSPENDED_SECONDS = 0.25;
/** Where two readings fall back by more than a block and this, the sound of a busy device stood. */
const FELL_BACK_SECONDS = 0.008;
/** One reading says no more for being had twice at once. */
const APART_SECONDS = 0.005;
/** From so many readings a block is known. */
const FEWEST_OF_BLOCK = 40;
/** Where the best of the latest readings falls back by more, it stood too, but for less. */
const STOOD_SECONDS = 0.008;
/** So many readings of so long see the end of a block, whatever the device. */
const LATEST_MILLISECONDS = 500;
const FEWEST_LATEST = 12;

/**
 * When the sound's clock will show what, from readings of both clocks. A reading is late by up to a
 * block of the sound device (3 to 40 ms), so the least late of the last two seconds are the truest;
 * but for a few, since a device that fell behind fetches a block or two at once (15 ms were seen).
 */
export class SoundClock {
  private readings: Reading[] = [];
  /** How far apart readings lie that are a block apart; Infinity until it is known. */
  private blockSeconds = Infinity;

  /** Both clocks, read at once: true time, and the `currentTime` of the sound in seconds. */
  read(nowMilliseconds: number, soundSeconds: number): void {
    const aheadSeconds = soundSeconds - nowMilliseconds / 1000;
    const reading = { atMilliseconds: nowMilliseconds, aheadSeconds };
    if (aheadSeconds < this.ahead - SUSPENDED_SECONDS || this.hasStood(reading)) this.readings = [];
    const oldest = nowMilliseconds - KEPT_MILLISECONDS;
    this.readings = this.readings.filter(({ atMilliseconds }) => atMilliseconds >= oldest);
    this.readings.push(reading);
    if (this.readings.length >= FEWEST_OF_BLOCK)
      this.blockSeconds = this.share(HURRIED_SHARE) - this.share(1 - HURRIED_SHARE);
    this.forgetBeforeStanding(nowMilliseconds);
  }

  /** Whether it stood before the last reading, and goes on: one reading may be late by itself. */
  private hasStood(reading: Reading): boolean {
    const last = this.readings.at(-1);
    if (last === undefined) return false;
    const behind = this.ahead - this.blockSeconds - FELL_BACK_SECONDS;
    const trueSeconds = (reading.atMilliseconds - last.atMilliseconds) / 1000;
    const goesOn = reading.aheadSeconds - last.aheadSeconds >= -trueSeconds / 2;
    return (
      trueSeconds >= APART_SECONDS &&
      goesOn &&
      Math.max(last.aheadSeconds, reading.aheadSeconds) < behind
    );
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
    const ahead = this.share(HURRIED_SHARE);
    if (this.readings.length >= FEWEST_LATEST || this.blockSeconds === Infinity) return ahead;
    // The few since it stood are anywhere in their blocks.
    return Math.max(ahead, (ahead + this.share(1) + this.blockSeconds) / 2);
  }

  /** What that share of the readings, the least late, is at least ahead. */
  private share(share: number): number {
    const leastLate = this.readings
      .map(({ aheadSeconds }) => aheadSeconds)
      .toSorted((a, b) => b - a);
    const last = leastLate.length - 1;
    return leastLate[Math.min(last, Math.floor(leastLate.length * share))] ?? -Infinity;
  }
}

/** How far the sound's clock was ahead of the true one, and when. */
interface Reading {
  atMilliseconds: number;
  aheadSeconds: number;
}

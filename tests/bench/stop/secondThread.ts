import type { WholeRecogniser } from '../../../src/ear/haltWatch';
import type { Recogniser } from '../../../src/ear/recognising';
import { HEARD_RATE } from '../../../src/ear/resampling';

/** What a reading by both readers took in Node on two shared cores: 63 ms of 1.2 s, 123 of 2.5. */
const readingSeconds = (samples: number) => 0.01 + (0.045 * samples) / HEARD_RATE;

interface Job {
  urgent: boolean;
  askedAtSeconds: number;
  /** What its readings take, those that are left. */
  readings: number[];
  done: () => void;
}

/**
 * The second thread in the sound's own time, however quick the machine: a look comes back once its
 * readings would be over, one after the other, those of what is had once only first.
 */
export class SecondThread implements WholeRecogniser {
  readonly isApart = true;
  nowSeconds = 0;
  private readonly jobs: Job[] = [];
  private freeAtSeconds = 0;
  private computing: Promise<unknown> = Promise.resolve();

  /** @param recogniser calls `again` before a second reading. */
  constructor(
    private readonly recogniser: (again: () => Promise<void>) => Pick<Recogniser, 'look'>,
  ) {}

  readonly look: Recogniser['look'] = async (samples, grammar, lexicon, how = {}) => {
    const askedAtSeconds = this.nowSeconds;
    const reading = readingSeconds(samples.length);
    const readings = [reading];
    const recogniser = this.recogniser(() => {
      readings.push(reading);
      return Promise.resolve();
    });
    const finding = this.computing.then(() => recogniser.look(samples, grammar, lexicon, how));
    this.computing = finding;
    const found = await finding;
    const urgent = how.once === true;
    await new Promise<void>((done) => this.jobs.push({ urgent, askedAtSeconds, readings, done }));
    return found;
  };

  /** The sound has come so far: what is over by now comes back. */
  async until(nowSeconds: number): Promise<void> {
    await this.settled();
    this.nowSeconds = Math.max(this.nowSeconds, nowSeconds);
    while (this.nextOver <= this.nowSeconds) await this.read();
  }

  /** Sound waits for a look: it is had, and so long has passed. */
  async waitedFor(): Promise<void> {
    await this.settled();
    this.nowSeconds = Math.max(this.nowSeconds, this.nextOver);
    await this.read();
  }

  private async settled(): Promise<void> {
    await this.computing;
    await new Promise(setImmediate);
  }

  /** When the next reading is over; Infinity where none is out. */
  private get nextOver(): number {
    const { next } = this;
    if (next === undefined) return Infinity;
    return Math.max(this.freeAtSeconds, next.askedAtSeconds) + (next.readings[0] ?? 0);
  }

  private async read(): Promise<void> {
    const { next } = this;
    if (next === undefined) throw new Error('Sound waits for no look.');
    this.freeAtSeconds = this.nextOver;
    next.readings.shift();
    if (next.readings.length > 0) return;
    this.jobs.splice(this.jobs.indexOf(next), 1);
    next.done();
    await new Promise(setImmediate);
  }

  private get next(): Job | undefined {
    const asked = this.jobs.filter(({ askedAtSeconds }) => askedAtSeconds <= this.freeAtSeconds);
    const jobs = asked.length > 0 ? asked : this.jobs;
    return jobs.find(({ urgent }) => urgent) ?? jobs[0];
  }
}

import type { Page } from 'playwright-core';
import type { Outcome, ReplyJob } from '../jobs';
import { outcomeOf } from '../hearing';
import { kindOf, isSingle } from '../replies';
import { LEAD_SECONDS, type SoundRoom } from '../sounding';
import type { CueBook } from '../../../../src/domain/script';
import { BENCH_PAGE, BUILT } from './building';
import { openChromium, type Browser } from './chromium';
import type { Frames, OnThePage, Scored } from './onThePage';
import { servePages, slowed, type Served } from './serving';

declare global {
  interface Window {
    bench: OnThePage;
    /** Page time at which each message of the ear's worker came first, milliseconds. */
    earTold?: Record<string, number>;
  }
}

/** A reply heard by the page; `afterMilliseconds` from the end of speech. */
export interface HeardReply {
  job: ReplyJob;
  outcome: Outcome;
  heard: string;
  afterMilliseconds: number | null;
}

/** From the opening of the app's page until its ear hears, milliseconds. */
export interface Load {
  line: string;
  cold: number;
  /** Once all of it is kept, so many times one after the other. */
  warm: number[];
}
const WARM_LOADS = 5;

/** Replies heard through a microphone of a rate. */
export interface HeardAt {
  sampleRate: number;
  heard: HeardReply[];
}

export interface Drive extends HeardAt {
  /** Through microphones of other rates, which were plugged into the same ear in turn. */
  further: HeardAt[];
  frames: Frames;
  switches: { first: number[]; again: number[] };
  scored: Scored;
  megabytes: { ready: number; afterHearing: number };
  memory: { replies: number; heard: number; before: number; after: number } | null;
}

/** The three times that a person waits for. */
export const waitFor = ({ part, wanted: { reply } }: ReplyJob) =>
  part === 'urgent' && kindOf(reply) === 'stop'
    ? 'a stop word'
    : isSingle(reply)
      ? 'a single answer'
      : 'a combined answer';

const LINES: [string, number | null][] = [
  ['loopback', null],
  ['20 Mbit/s', 20e6],
];

/** Opens the app's page in a new browser and again in the same, over each line. */
export async function loads(lines = LINES): Promise<Load[]> {
  const served = await servePages(BUILT, []);
  const all: Load[] = [];
  for (const [line, bits] of lines) {
    const over: Served = bits === null ? served : await slowed(served, bits);
    const browser = await openChromium();
    const [page] = browser.context.pages();
    if (page === undefined) throw new Error('Chromium opened no page.');
    await page.addInitScript(watchWorker);
    const load = async () => {
      await page.goto(over.address);
      const ended = () => window.earTold?.['ready'] ?? window.earTold?.['failed'];
      await page.waitForFunction(ended, null, { timeout: 120_000 });
      return page.evaluate(() => window.earTold?.['ready'] ?? NaN);
    };
    const cold = await load();
    await page.waitForFunction(isKept, null, { timeout: 120_000, polling: 500 });
    const warm: number[] = [];
    while (warm.length < WARM_LOADS) warm.push(await load());
    all.push({ line, cold, warm });
    await browser.close();
    if (over !== served) await over.close();
  }
  await served.close();
  return all;
}

/** Runs in the page: whether all of it is kept; the page itself comes last. */
async function isKept(): Promise<boolean> {
  const shelves = await Promise.all((await caches.keys()).map((name) => caches.open(name)));
  const kept = await Promise.all(shelves.map((shelf) => shelf.keys()));
  return kept.flat().some(({ url }) => url.includes('/index.html'));
}

/** Runs in the page before anything of it: notes when its ear's worker tells what. */
function watchWorker() {
  const told: Record<string, number> = {};
  window.earTold = told;
  window.Worker = class extends Worker {
    constructor(address: string | URL, options?: WorkerOptions) {
      super(address, options);
      if (options?.name !== 'ear') return;
      this.addEventListener('message', ({ data }: MessageEvent<{ type: string }>) => {
        told[data.type] ??= performance.now();
      });
    }
  };
}

/** The bench's page in a Chromium, which can be given a microphone of a rate and spoken to. */
interface Bench {
  page: Page;
  browser: Browser;
  made: { sound: Float32Array; endSeconds: number }[];
  /** Plugs in a microphone; null: of the device's own rate. The rate that it runs at. */
  plugIn(sampleRate: number | null): Promise<number>;
  /** Lets it hear the first so many replies, or all, as they would be spoken. */
  hear(count?: number): Promise<HeardReply[]>;
}

async function atBench<T>(
  book: CueBook,
  sounds: SoundRoom,
  jobs: ReplyJob[],
  work: (bench: Bench) => Promise<T>,
): Promise<T> {
  const made = await Promise.all(jobs.map((job) => sounds.reply(job)));
  const served = await servePages(
    BUILT,
    made.map(({ sound }) => sound),
  );
  const browser: Browser = await openChromium();
  try {
    const [page] = browser.context.pages();
    if (page === undefined) throw new Error('Chromium opened no page.');
    await page.goto(`${served.address}${BENCH_PAGE}`);
    await page.waitForFunction(() => 'bench' in window);
    const plugIn = async (sampleRate: number | null) => {
      const started = await page.evaluate((rate) => window.bench.start(rate), sampleRate);
      return started.sampleRate;
    };
    const hear = async (count = jobs.length) => {
      const heard: HeardReply[] = [];
      for (const [at, job] of jobs.slice(0, count).entries()) {
        const { told } = await page.evaluate((asked) => window.bench.hear(asked), {
          address: `/sound/${at}`,
          prompt: job.wanted.prompt,
          endSeconds: made[at]?.endSeconds ?? 0,
        });
        const { outcome, by } = outcomeOf(book, job, told);
        heard.push({
          job,
          outcome,
          heard: by?.text ?? told.map(({ text }) => text).join(' / '),
          afterMilliseconds: by === null ? null : by.afterMilliseconds,
        });
      }
      return heard;
    };
    return await work({ page, browser, made, plugIn, hear });
  } finally {
    await browser.close();
    await served.close();
  }
}

/**
 * All that is measured at the device's own rate, `feeds` replies for the growth of memory among it;
 * then `atRates` replies at each of these rates that is another.
 */
export const drive = (
  book: CueBook,
  sounds: SoundRoom,
  jobs: ReplyJob[],
  { feeds, atRates, rates }: { feeds: number; atRates: number; rates: number[] },
): Promise<Drive> =>
  atBench(book, sounds, jobs, async ({ page, browser, made, plugIn, hear }) => {
    const sampleRate = await plugIn(null);
    const ready = await browser.rendererMegabytes();
    await page.evaluate(() => window.bench.frames());
    const heard = await hear();
    const frames = await page.evaluate(() => window.bench.frames());
    const afterHearing = await browser.rendererMegabytes();
    const memory = feeds === 0 ? null : await fed(page, browser, feeds);
    const further: HeardAt[] = [];
    for (const rate of atRates === 0 ? [] : rates.filter((each) => each !== sampleRate))
      further.push({ sampleRate: await plugIn(rate), heard: await hear(atRates) });
    return {
      ...{ sampleRate, heard, further, frames, megabytes: { ready, afterHearing }, memory },
      switches: await page.evaluate(() => window.bench.switches()),
      scored: await page.evaluate(
        (asked) => window.bench.score(asked),
        // As the segmenter would cut it: a little before and after what is said.
        jobs.map((job, at) => ({
          address: `/sound/${at}`,
          prompt: job.wanted.prompt,
          fromSeconds: LEAD_SECONDS - 0.25,
          toSeconds: (made[at]?.endSeconds ?? 0) + 0.3,
        })),
      ),
    };
  });

/** The same reply so many times, after as many more as it takes to be warm. */
async function fed(page: Page, browser: Browser, replies: number) {
  const feed = (count: number) =>
    page.evaluate((times) => window.bench.feed('/sound/0', times), count);
  await feed(Math.ceil(replies / 10));
  const before = await browser.rendererMegabytes();
  const heard = await feed(replies);
  return { replies, heard, before, after: await browser.rendererMegabytes() };
}

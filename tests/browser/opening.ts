import { fileURLToPath } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import type { Entry } from '../../src/domain/log';
import type { Row } from '../../src/records/checked';
import { serveFolder } from '../../src/serving/serving.mjs';
import type { Leak } from './handMicrophone';
import { startChromium, startWindow } from './starting';

/** What `npm run build` builds. */
export const DIST = fileURLToPath(new URL('../../dist', import.meta.url));

export interface Opened {
  page: Page;
  context: BrowserContext;
  /** Everything the page complained of. */
  complaints: string[];
  close(): Promise<void>;
}

export interface OpenOptions {
  /** Its ear arrives. Left out, it is on its way for ever, and spares a page 5 s of reckoning. */
  isHeard?: boolean;
  /** What it stores lies on a disk, in a Chromium of its own. */
  isOnDisk?: boolean;
  /** A WAV file that is the microphone; it begins to play when the microphone is opened. */
  microphone?: string;
  /** What the browser answers when the page asks for the microphone. */
  permission?: 'granted' | 'denied';
  /** Addresses that do not arrive. */
  blocked?: RegExp;
  /** Addresses whose files arrive with other bytes. */
  damaged?: RegExp;
  viewport?: { width: number; height: number };
  /** Runs in the page before anything of it. */
  before?: (() => void) | (() => void)[];
  /** What a microphone in the test's hand hears of the page's own sound; nothing where left out. */
  leak?: Leak;
  /** The built page; what `npm run build` builds where left out. */
  folder?: string;
}

/** The built page in a real Chromium that knows nothing of it yet, at its start gate. */
export async function open(options: OpenOptions = {}): Promise<Opened> {
  const { microphone, permission = 'granted', blocked, damaged, before = [], leak } = options;
  const { isHeard = false, isOnDisk = false } = options;
  const served = await serveFolder(options.folder ?? DIST, { port: 0 });
  const flags = [
    '--autoplay-policy=user-gesture-required',
    ...(permission === 'granted' ? ['--use-fake-ui-for-media-stream'] : []),
    ...(microphone ? [`--use-file-for-fake-audio-capture=${microphone}%noloop`] : []),
  ];
  const start = microphone || isOnDisk ? startChromium : startWindow;
  const started = await start(flags, options.viewport);
  const { context } = started;
  // Functions that tsx has compiled name what is in them, in the page too.
  await context.addInitScript('globalThis.__name ??= (named) => named;');
  if (leak) await context.addInitScript((heard) => Object.assign(window, { leak: heard }), leak);
  for (const script of [before].flat()) await context.addInitScript(script);
  const page = context.pages()[0] ?? (await context.newPage());
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  complainOfLeaving(context, `http://localhost:${served.port}`, complaints);
  if (!isHeard) await page.route('**/ear/**', () => undefined);
  if (blocked) await page.route(blocked, (route) => route.abort());
  if (damaged) await page.route(damaged, (route) => route.fulfill({ body: 'cut off' }));
  await page.goto(`http://localhost:${served.port}/`);
  await toGate(page);
  return {
    page,
    context,
    complaints,
    async close() {
      await started.close();
      await served.close();
    },
  };
}

/** What the browser makes up itself goes nowhere. */
const STAYS = /^(blob|data|about|chrome|devtools):/;

/** Nothing leaves the place that served the page: each request elsewhere is a complaint. */
export function complainOfLeaving(
  context: BrowserContext,
  origin: string,
  complaints: string[],
): void {
  context.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(`${origin}/`) && !STAYS.test(url)) complaints.push(`It asked ${url}`);
  });
}

/** Every entry as it lies in the browser's database, in its order. */
export const storedRows = (page: Page): Promise<Row[]> =>
  page.evaluate(
    () =>
      new Promise<Row[]>((resolve, reject) => {
        const opening = indexedDB.open('sayso');
        opening.onerror = () => reject(new Error(String(opening.error)));
        opening.onsuccess = () => {
          const read = opening.result.transaction('entries').objectStore('entries').getAll();
          read.onerror = () => reject(new Error(String(read.error)));
          read.onsuccess = () => {
            opening.result.close();
            resolve(read.result as Row[]);
          };
        };
      }),
  );

/** The stored log of the session begun last. */
export async function storedLog(page: Page): Promise<Entry[]> {
  const rows = await storedRows(page);
  const last = rows.findLast(({ type }) => type === 'started')?.session;
  return rows.filter(({ session }) => session === last).map(({ entry }) => entry as Entry);
}

/** Waits, without counting time, until the stored log holds what is looked for. */
export async function untilStored(
  page: Page,
  found: (log: Entry[]) => boolean,
  timeoutSeconds: number,
): Promise<Entry[]> {
  const deadline = Date.now() + timeoutSeconds * 1000;
  for (;;) {
    const log = await storedLog(page);
    if (found(log)) return log;
    if (Date.now() > deadline) {
      const facts = log.map(({ type, atSeconds }) => `${atSeconds} ${type}`);
      throw new Error(`Not stored in ${timeoutSeconds} s. The log:\n${facts.join('\n')}`);
    }
    // The page tells when: each look reads the whole record.
    await page.evaluate(() => new Promise((next) => setTimeout(next, 100)));
  }
}

interface Meter {
  peak: number;
}

/** Begins to watch how loud the page is; `loudest` gives the peak since the last look. */
export async function watchSound(page: Page): Promise<{ loudest(): Promise<number> }> {
  await page.evaluate(() => {
    const { ctx, masterGain } = (window as unknown as { Howler: HowlerSound }).Howler;
    const analyser = ctx.createAnalyser();
    masterGain.connect(analyser);
    const meter: Meter = { peak: 0 };
    (window as unknown as { meter: Meter }).meter = meter;
    const samples = new Float32Array(analyser.fftSize);
    const look = () => {
      analyser.getFloatTimeDomainData(samples);
      for (const sample of samples) meter.peak = Math.max(meter.peak, Math.abs(sample));
      requestAnimationFrame(look);
    };
    look();
  });
  return {
    loudest: () =>
      page.evaluate(() => {
        const { meter } = window as unknown as { meter: Meter };
        const { peak } = meter;
        meter.peak = 0;
        return peak;
      }),
  };
}

interface HowlerSound {
  ctx: AudioContext;
  masterGain: GainNode;
}

/** From the people to the start gate, for nobody named; at the gate already, nothing. */
export async function toGate(page: Page): Promise<void> {
  const nobody = page.getByRole('button', { name: 'Begin without a name' });
  const gate = page.getByRole('button', { name: /: begin by touch/ });
  await nobody.or(gate).waitFor();
  if (await nobody.isVisible()) await nobody.click();
}

/** Begins from the gate, which says that they were asked and agree. */
export async function begin(page: Page, how: 'voice' | 'touch', routine = 'hinge'): Promise<void> {
  await toGate(page);
  await page.locator(`input[value="${routine}"]`).check();
  await page
    .getByRole('button', { name: how === 'voice' ? 'Begin by voice' : 'Begin by touch' })
    .click();
}

/** To the next question, by touch: the work is said to be done. */
export async function toQuestion({ page }: Opened): Promise<void> {
  await page.getByRole('button', { name: 'Done' }).click({ timeout: 60_000 });
  await page.getByRole('button', { name: 'Held' }).waitFor();
}

/** Waits for the one heading of a screen. */
export const h1 = (page: Page, name: string | RegExp) =>
  page.getByRole('heading', { level: 1, name }).waitFor();

/** Past the welcome and the work, to the question of the last check. */
export async function toLastQuestion(page: Page): Promise<void> {
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  await page.locator('.more > summary').click();
  await page.getByRole('button', { name: 'Next rung' }).click();
  await h1(page, 'Hinge with the bar');
  // As by voice: the work is cut short, and the question comes.
  await page.getByRole('button', { name: 'Done' }).click();
  await page.getByRole('button', { name: 'Held', exact: true }).waitFor();
}

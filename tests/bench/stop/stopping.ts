import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import type { Locator, Page } from 'playwright-core';
import { USUAL_MANNER } from '../../../src/voice/manner';
import { handMicrophone } from '../../browser/handMicrophone';
import { begin, open, toGate } from '../../browser/opening';
import { spokenBy, type Speaker } from '../../sounds/speakers';
import { spokenPower } from '../../sounds/surroundings';
import { inPageSizes, stopLines, waitForSilence, type Over, type Stopping } from './inPage';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const BUILT = here('../../../.cache/stop-page');

/** `voice`: as it is. `after its silence`: the same ear, made to wait for it. `touch`: the button. */
export type StopWay = 'voice' | 'after its silence' | 'touch';
export const STOP_WAYS: StopWay[] = ['voice', 'after its silence', 'touch'];

/** From the end of "stop", or from the touch, until the line is silent. */
export interface StopFigure {
  figure: 'stop';
  way: StopWay | 'in its own time';
  n: number;
  missed: number;
  medianMilliseconds: number | null;
  percentile95Milliseconds: number | null;
  /** Whose "stop" was missed. */
  missedOf: string[];
}

export interface StopSize {
  /** How often each voice says it, each way. */
  times: number;
  speakers: Speaker[];
  /** What comes back of Sayso's own voice, and how far the word lies above it. */
  leakDecibels: number;
  aboveDecibels: number;
  ways?: StopWay[];
  /** A built page; built anew where left out. */
  folder?: string;
}

/** Goal of the 95th percentile. */
export const SILENT_WITHIN_MILLISECONDS = 200;

const ECHO_DELAY_SECONDS = 0.08;
/** Every line is brought to this loudness (src/voice/sound.ts). */
const LINE_RMS = 0.22;
/** Words begin at another place of the line each time. */
const AFTER_SECONDS = [0.5, 0.8, 1.1, 1.4];
const RATE = 16000;
/** The sound of a voice is cut with so much around it. */
const AROUND_SECONDS = 0.01;

/** Sayso speaks in real Chromium, "stop" is said over it, and the line's own silence is measured. */
export async function stopFigures(size: StopSize): Promise<StopFigure[]> {
  const folder = size.folder ?? (await built());
  const figures: StopFigure[] = [];
  for (const way of size.ways ?? STOP_WAYS) figures.push(await figureOf(way, size, folder));
  return figures;
}

async function built(): Promise<string> {
  await build({
    root: here('../../../'),
    configFile: here('../../../vite.config.ts'),
    logLevel: 'silent',
    build: { outDir: BUILT, emptyOutDir: true },
  });
  return BUILT;
}

async function figureOf(way: StopWay, size: StopSize, folder: string): Promise<StopFigure> {
  const { speakers, times, leakDecibels } = size;
  const said: { name: string; over: Over | null }[] = [];
  for (let at = 0; at < speakers.length * times; at += 1) {
    const speaker = speakers[at % speakers.length];
    if (speaker === undefined) throw new Error('Nobody says "stop".');
    const over = way === 'touch' ? null : await overOf(speaker, at, size);
    said.push({ name: speaker.name, over });
  }
  const opened = await open({
    folder,
    isHeard: true,
    before: handMicrophone,
    leak: { delaySeconds: ECHO_DELAY_SECONDS, decibels: leakDecibels },
  });
  try {
    const { page, context } = opened;
    await context.addInitScript(stopLines, inPageSizes);
    if (way === 'after its silence') await context.addInitScript(waitForSilence);
    await page.reload();
    await toGate(page);
    const better = page.getByText('the better one is on its way');
    // It may have come before anybody looked.
    await better.waitFor({ timeout: 15_000 }).catch(() => undefined);
    await better.waitFor({ state: 'hidden', timeout: 60_000 });
    const took: { name: string; milliseconds: number | null }[] = [];
    for (const { name, over } of said) {
      const speak = await readyToSpeak(page);
      const stopping = page.evaluate(
        (word) => (window as unknown as Stopping).stopNext(word),
        over,
      );
      await speak();
      took.push({ name, milliseconds: await stopping });
    }
    return figureFrom(way, took);
  } finally {
    await opened.close();
  }
}

/**
 * What makes it speak again. After a stop that was heard the line is said again. After one that was
 * missed the session has gone on, to a question that waits without another word perhaps, or has
 * ended on what it took the word for: so it is ended, and a new one begins.
 */
async function readyToSpeak(page: Page): Promise<() => Promise<void>> {
  const no = page.getByRole('button', { name: 'No, go on' });
  const runs = await page.locator('main.run').isVisible();
  if (runs && (await isSeen(no))) return () => no.click();
  if (runs) {
    await page.locator('button.stop').click();
    await page.getByRole('button', { name: 'Yes, end it' }).click();
  }
  const back = page.getByRole('button', { name: 'Back to the start' });
  const gate = page.getByRole('button', { name: 'Begin by voice' });
  // The closing words are heard out.
  await back.or(gate).first().waitFor({ timeout: 60_000 });
  if (await back.isVisible()) await back.click();
  return () => begin(page, 'voice');
}

const isSeen = (button: Locator): Promise<boolean> =>
  button.waitFor({ timeout: 5000 }).then(
    () => true,
    () => false,
  );

async function overOf(speaker: Speaker, at: number, size: StopSize): Promise<Over> {
  const samples = await spokenBy({ speaker, text: 'stop', rate: 1 });
  const line = 20 * Math.log10(LINE_RMS * USUAL_MANNER.volume) + size.leakDecibels;
  const wanted = line + size.aboveDecibels;
  const gain = 10 ** ((wanted - 10 * Math.log10(spokenPower(samples))) / 20);
  return {
    samples: [...samples].map((sample) => gain * sample),
    sampleRate: RATE,
    endSeconds: samples.length / RATE - AROUND_SECONDS,
    afterSeconds: AFTER_SECONDS[at % AFTER_SECONDS.length] ?? 0.8,
  };
}

/** What was not silenced counts in `missed` alone. */
export function figureFrom(
  way: StopFigure['way'],
  took: { name: string; milliseconds: number | null }[],
): StopFigure {
  const times = took
    .flatMap(({ milliseconds }) => (milliseconds === null ? [] : [milliseconds]))
    .toSorted((one, other) => one - other);
  const at = (share: number) => {
    const found = times[Math.ceil(share * times.length) - 1];
    return found === undefined ? null : Math.round(found);
  };
  return {
    figure: 'stop',
    way,
    n: took.length,
    missed: took.length - times.length,
    medianMilliseconds: at(0.5),
    percentile95Milliseconds: at(0.95),
    missedOf: took.flatMap(({ name, milliseconds }) => (milliseconds === null ? [name] : [])),
  };
}

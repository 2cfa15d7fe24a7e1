import { fileURLToPath } from 'node:url';
import { setTimeout as wait } from 'node:timers/promises';
import { build } from 'vite';
import { serveFolder } from '../../../src/serving/serving.mjs';
import { openBareChromium, type BareChromium } from './bareChromium';
import { evennessOf, type Evenness } from './evenness';
import type { Beaten } from './page';
import { openSoundCard, type SoundCard } from './soundCard';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const ROOT = here('../../../');
const BUILT = here('../../../.cache/pacing-page');
const SOUND_STARTS_MILLISECONDS = 1500;
const PAGE = 'tests/bench/pacing/page.html';

export interface PacingFigure extends Evenness {
  figure: 'beats';
  way: 'ours' | 'interval';
  page: 'seen' | 'hidden';
  seconds: number;
  /** Who heard them: a recorder on the sound card, in true time, or the page's own sound. */
  heardBy: 'card' | 'page';
  /** By how much what the card heard is uncertain; null without a card. */
  uncertainMilliseconds: number | null;
  /** The most that the sound of this page itself stood still. */
  stoodMilliseconds: number;
  /** Whether Chromium got its turn before all other programs of the machine. */
  isFirst: boolean;
}

/** Goals: the worst beat, and the drift over the whole run. */
export const WORST_MILLISECONDS = 10;
export const DRIFT_PERCENT = 0.1;

/**
 * Beats in Chromium, in a page that is seen and in one behind another, each beside a naive
 * interval in the same page and run. They are heard on a sound card that keeps true time where
 * PulseAudio is installed; else in the page's own sound, in its own frames.
 */
export async function pacingFigures(seconds: number): Promise<PacingFigure[]> {
  await build({
    root: ROOT,
    configFile: here('../../../vite.config.ts'),
    logLevel: 'silent',
    publicDir: false,
    build: { outDir: BUILT, emptyOutDir: true, rolldownOptions: { input: here('page.html') } },
  });
  const served = await serveFolder(BUILT, { port: 0 });
  const address = `http://localhost:${served.port}/${PAGE}`;
  const card = await openSoundCard();
  try {
    const figures: PacingFigure[] = [];
    for (const page of ['seen', 'hidden'] as const)
      figures.push(...(await figuresOf({ address, page, seconds, card })));
    return figures;
  } finally {
    await card?.close();
    await served.close();
  }
}

async function figuresOf({
  address,
  page,
  seconds,
  card,
}: {
  address: string;
  page: PacingFigure['page'];
  seconds: number;
  card: SoundCard | null;
}): Promise<PacingFigure[]> {
  const chromium = openBareChromium(card?.environment ?? process.env);
  try {
    const heardSoFar = card?.listen();
    const beaten = await beatIn(chromium, address, page, { seconds, isRecorded: card === null });
    const heard = await heardSoFar?.();
    return (['ours', 'interval'] as const).map((way, channel) => ({
      figure: 'beats',
      way,
      page,
      seconds,
      heardBy: heard ? 'card' : 'page',
      uncertainMilliseconds: heard ? Math.round(10 * heard.strayMilliseconds) / 10 : null,
      stoodMilliseconds: Math.round(beaten.stoodMilliseconds),
      isFirst: beaten.isFirst,
      ...evennessOf(heard?.channels[channel] ?? beaten[way], Math.floor(seconds / 6) * 6),
    }));
  } finally {
    await chromium.close();
  }
}

/** Opens the page, hides it where that is asked for, and lets it beat. */
async function beatIn(
  chromium: BareChromium,
  address: string,
  page: PacingFigure['page'],
  { seconds, isRecorded }: { seconds: number; isRecorded: boolean },
): Promise<Beaten & { isFirst: boolean }> {
  const open = (url: string) => chromium.send<{ targetId: string }>('Target.createTarget', { url });
  const { targetId } = await open('about:blank');
  const { sessionId } = await chromium.send<{ sessionId: string }>('Target.attachToTarget', {
    targetId,
    flatten: true,
  });
  const evaluate = async <Value>(expression: string): Promise<Value> => {
    const { result, exceptionDetails } = await chromium.send<Evaluated<Value>>(
      'Runtime.evaluate',
      { expression, awaitPromise: true, returnByValue: true },
      sessionId,
    );
    if (exceptionDetails) throw new Error(exceptionDetails.exception?.description ?? 'failed');
    return result.value;
  };
  await chromium.send(
    'Target.activateTarget',
    page === 'seen' ? { targetId } : await open('about:blank'),
  );
  await chromium.send('Page.navigate', { url: address }, sessionId);
  await evaluate(`new Promise((run) => {
    const ready = () => (window.beat ? run() : setTimeout(ready, 50));
    ready();
  })`);
  const beating = evaluate<Beaten>(`window.beat(${seconds}, ${isRecorded})`);
  // What makes the sound starts with it.
  await wait(SOUND_STARTS_MILLISECONDS);
  const isFirst = chromium.putFirst();
  const beaten = await beating;
  const seen = await evaluate<string>('document.visibilityState');
  if ((seen === 'hidden') !== (page === 'hidden'))
    throw new Error(`The page that should be ${page} was ${seen}.`);
  return { ...beaten, isFirst };
}

interface Evaluated<Value> {
  result: { value: Value };
  exceptionDetails?: { exception?: { description?: string } };
}

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type BrowserContext } from 'playwright-core';
import { CHROMIUM, CHROMIUM_FLAGS } from './flags';

/** A Chromium that has never been started before, and how to end it and leave nothing behind. */
export interface Started {
  context: BrowserContext;
  close(): Promise<void>;
}

const PHONE = { width: 390, height: 844 };
const ALWAYS = [...CHROMIUM_FLAGS, '--use-fake-device-for-media-stream'];

const shared = new Map<string, Promise<Browser>>();

/**
 * A window of a Chromium that all tests of a worker share, since starting one takes seconds: as
 * empty as a new one, and forgotten once it is closed. What it stores never lies on a disk.
 */
export async function startWindow(flags: string[], viewport = PHONE): Promise<Started> {
  const browser =
    shared.get(flags.join()) ??
    chromium.launch({ executablePath: CHROMIUM, headless: true, args: [...ALWAYS, ...flags] });
  shared.set(flags.join(), browser);
  const context = await (await browser).newContext({ viewport, serviceWorkers: 'block' });
  return { context, close: () => context.close() };
}

/** Starts the Chromium that `CHROMIUM` names, with a microphone that is made up. */
export async function startChromium(
  flags: string[],
  viewport = PHONE,
  /** What a service worker fetches cannot be kept from arriving, so most do without one. */
  serviceWorkers: 'allow' | 'block' = 'block',
): Promise<Started> {
  const profile = mkdtempSync(join(tmpdir(), 'sayso-chromium-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: CHROMIUM,
    headless: true,
    args: [...ALWAYS, ...flags],
    viewport,
    serviceWorkers,
  });
  return {
    context,
    async close() {
      await context.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

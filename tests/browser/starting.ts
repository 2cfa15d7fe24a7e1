import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext } from 'playwright-core';
import { CHROMIUM, CHROMIUM_FLAGS } from './flags';

/** A Chromium that has never been started before, and how to end it and leave nothing behind. */
export interface Started {
  context: BrowserContext;
  close(): Promise<void>;
}

/** Starts the Chromium that `CHROMIUM` names, with a microphone that is made up. */
export async function startChromium(
  flags: string[],
  viewport = { width: 390, height: 844 },
  /** What a service worker fetches cannot be kept from arriving, so most do without one. */
  serviceWorkers: 'allow' | 'block' = 'block',
): Promise<Started> {
  const profile = mkdtempSync(join(tmpdir(), 'sayso-chromium-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: CHROMIUM,
    headless: true,
    args: [...CHROMIUM_FLAGS, '--use-fake-device-for-media-stream', ...flags],
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

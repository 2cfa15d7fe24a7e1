import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext } from 'playwright-core';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--use-fake-device-for-media-stream',
];

/** A Chromium that has never been started before, and how to end it and leave nothing behind. */
export interface Started {
  context: BrowserContext;
  close(): Promise<void>;
}

/** Starts the Chromium that `CHROMIUM` names, with a microphone that is made up. */
export async function startChromium(
  flags: string[],
  viewport = { width: 390, height: 844 },
): Promise<Started> {
  const profile = mkdtempSync(join(tmpdir(), 'sayso-chromium-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    headless: true,
    args: [...FLAGS, ...flags],
    viewport,
  });
  return {
    context,
    async close() {
      await context.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

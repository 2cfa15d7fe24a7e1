import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext, type CDPSession } from 'playwright-core';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--autoplay-policy=no-user-gesture-required',
  '--use-fake-device-for-media-stream',
  '--use-fake-ui-for-media-stream',
];

/** A Chromium that has never been started before. */
export interface Browser {
  context: BrowserContext;
  /** Private memory of the process that runs the pages and their workers, MB. */
  rendererMegabytes(): Promise<number>;
  close(): Promise<void>;
}

export async function openChromium(): Promise<Browser> {
  const profile = mkdtempSync(join(tmpdir(), 'sayso-bench-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    headless: true,
    args: FLAGS,
    viewport: { width: 390, height: 844 },
  });
  const browser = context.browser();
  const session: CDPSession | undefined = await browser?.newBrowserCDPSession();
  return {
    context,
    async rendererMegabytes() {
      const info = await session?.send('SystemInfo.getProcessInfo');
      const renderers = (info?.processInfo ?? []).filter(({ type }) => type === 'renderer');
      return Math.max(0, ...renderers.map(({ id }) => privateMegabytes(id)));
    },
    async close() {
      await context.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

/** What Chromium's task manager calls the memory footprint: pages of no file, and swapped ones. Linux only. */
function privateMegabytes(process: number): number {
  const status = readFileSync(`/proc/${process}/status`, 'utf8');
  const kilobytes = [...status.matchAll(/^(?:RssAnon|VmSwap):\s+(\d+) kB$/gm)].map(([, count]) =>
    Number(count),
  );
  return kilobytes.reduce((sum, count) => sum + count, 0) / 1024;
}

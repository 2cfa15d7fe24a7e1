import { readFileSync } from 'node:fs';
import type { CDPSession } from 'playwright-core';
import { startChromium, type Started } from '../../../browser/starting';

/** A Chromium of which the memory can be told. */
export interface Browser extends Started {
  /** Private memory of the process that runs the pages and their workers, MB. */
  rendererMegabytes(): Promise<number>;
}

export async function openChromium(): Promise<Browser> {
  const started = await startChromium([
    '--autoplay-policy=no-user-gesture-required',
    '--use-fake-ui-for-media-stream',
  ]);
  const session: CDPSession | undefined = await started.context.browser()?.newBrowserCDPSession();
  return {
    ...started,
    async rendererMegabytes() {
      const info = await session?.send('SystemInfo.getProcessInfo');
      const renderers = (info?.processInfo ?? []).filter(({ type }) => type === 'renderer');
      return Math.max(0, ...renderers.map(({ id }) => privateMegabytes(id)));
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

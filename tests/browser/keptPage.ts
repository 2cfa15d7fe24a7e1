import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { serveFolder } from '../../src/serving/serving.mjs';
import { complainOfLeaving, DIST } from './opening';
import { startChromium } from './starting';

/** A copy of the built page, which a test may change, in a Chromium that lets it keep itself. */
export interface KeptPage {
  /** Where the copy lies: below another folder, as a host may have it. */
  folder: string;
  address: string;
  page: Page;
  context: BrowserContext;
  /** Every error that nothing caught, and every request that leaves. */
  complaints: string[];
  /** Opens the page and waits until all of it is kept. */
  openAndKeep(): Promise<void>;
  stopServer(): Promise<void>;
  close(): Promise<void>;
}

/** Said at the gate once it is so. */
export const WORKS = 'Works without network from now on.';

/** Serves the copy from a port of its own; nothing is opened yet. */
export async function keptPage(): Promise<KeptPage> {
  const top = mkdtempSync(join(tmpdir(), 'sayso-offline-'));
  const folder = join(top, 'gym/sayso');
  cpSync(DIST, folder, { recursive: true });
  const served = await serveFolder(top, { port: 0 });
  const asked = ['--autoplay-policy=user-gesture-required', '--use-fake-ui-for-media-stream'];
  const { context, close } = await startChromium(asked, undefined, 'allow');
  const page = context.pages()[0] ?? (await context.newPage());
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  complainOfLeaving(context, `http://localhost:${served.port}`, complaints);
  const address = `http://localhost:${served.port}/gym/sayso/`;
  let isServed = true;
  const stopServer = async () => {
    if (isServed) await served.close();
    isServed = false;
  };
  return {
    ...{ folder, address, page, context, complaints, stopServer },
    async openAndKeep() {
      await page.goto(address);
      await page.getByText(WORKS).waitFor({ timeout: 60_000 });
    },
    async close() {
      await close();
      await stopServer();
      rmSync(top, { recursive: true, force: true });
    },
  };
}

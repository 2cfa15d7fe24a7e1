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
  /** Its ear comes with the next load; till then it hears nothing. */
  letEarCome(): Promise<void>;
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
  await context.addInitScript(withoutEar);
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
    letEarCome: () => page.evaluate(() => sessionStorage.setItem('ear', 'comes')),
    async close() {
      await close();
      await stopServer();
      rmSync(top, { recursive: true, force: true });
    },
  };
}

/**
 * In the page, before anything of it: the worker of its ear says that it is ready, since all is kept
 * only behind the ear, and hears nothing, which spares a page seconds of reckoning. What a service
 * worker has kept comes in spite of any route, so no route can hold it.
 */
function withoutEar() {
  if (sessionStorage.getItem('ear') !== null) return;
  interface Deaf {
    onmessage: ((event: { data: object }) => void) | null;
    postMessage(message: { type: string }): void;
    terminate(): void;
  }
  const deaf = (): Deaf => {
    const worker: Deaf = {
      onmessage: null,
      postMessage({ type }) {
        if (type === 'start') setTimeout(() => worker.onmessage?.({ data: { type: 'ready' } }));
      },
      terminate: () => undefined,
    };
    return worker;
  };
  window.Worker = class extends Worker {
    constructor(address: string | URL, options?: WorkerOptions) {
      if (options?.name === 'ear') return deaf() as unknown as Worker;
      super(address, options);
    }
  };
}

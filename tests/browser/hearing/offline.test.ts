import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { buildServiceWorker } from '../../../src/offline/plugin';
import { serveFolder } from '../../../src/serving/serving.mjs';
import { handMicrophone, speak } from '../handMicrophone';
import { begin, untilStored, watchSound } from '../opening';
import { startChromium, type Started } from '../starting';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const WORKS = 'Works without network from now on.';

/** A copy of the built page, which a test may change, and where it is served. */
let folder: string;
let served: { port: number; close(): Promise<void> };
let started: Started;
let context: BrowserContext;
let page: Page;
let stopped: boolean;
const complaints: string[] = [];

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sayso-offline-'));
  // Below another folder, as a host may have it.
  cpSync(here('../../../dist'), join(folder, 'gym/sayso'), { recursive: true });
  served = await serveFolder(folder, { port: 0 });
  stopped = false;
  const asked = ['--autoplay-policy=user-gesture-required', '--use-fake-ui-for-media-stream'];
  started = await startChromium(asked, undefined, 'allow');
  ({ context } = started);
  page = context.pages()[0] ?? (await context.newPage());
  complaints.length = 0;
  page.on('pageerror', (error) => complaints.push(error.message));
});

const stopServer = async () => {
  if (!stopped) await served.close();
  stopped = true;
};

afterEach(async () => {
  await started.close();
  await stopServer();
  rmSync(folder, { recursive: true, force: true });
});

const address = () => `http://localhost:${served.port}/gym/sayso/`;

/** The page at its gate, with everything kept. */
async function openAndKeep(): Promise<void> {
  await page.goto(address());
  await page.getByText(WORKS).waitFor({ timeout: 60_000 });
}

/** Another version of the page lies on the server from now on: another title, a script gone. */
async function publishNewVersion(): Promise<void> {
  const sayso = join(folder, 'gym/sayso');
  const html = readFileSync(join(sayso, 'index.html'), 'utf8');
  writeFileSync(
    join(sayso, 'index.html'),
    html.replace('<title>Sayso</title>', '<title>New</title>'),
  );
  rmSync(join(sayso, 'assets', lazyScript()));
  await buildServiceWorker(sayso, here('../../../src/offline/serviceWorker.ts'));
}

/** A script that the gate does not fetch. */
const lazyScript = () =>
  readdirSync(join(here('../../../dist'), 'assets')).find((name) => /^VoiceCheck.*js$/.test(name))!;

const statusOf = (path: string) =>
  page.evaluate(async (path) => (await fetch(path)).status, `assets/${path}`);

const newVersionComes = () =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    const installing = registration.installing;
    await new Promise<void>((resolve, reject) => {
      if (installing === null) return registration.waiting ? resolve() : reject(new Error('none'));
      installing.addEventListener('statechange', () =>
        installing.state === 'installed' ? resolve() : reject(new Error(installing.state)),
      );
    });
  });

describe('without network', () => {
  it('a spoken reply is heard and graded, from a page loaded anew, with the server gone', async () => {
    await context.addInitScript('globalThis.__name ??= (named) => named;');
    await context.addInitScript(handMicrophone);
    await openAndKeep();
    await stopServer();
    await context.setOffline(true);
    await page.reload();
    await page.getByText('The recogniser is loading').waitFor({ state: 'hidden' });
    await begin(page, 'voice');
    const sound = await watchSound(page);
    await page.getByRole('heading', { name: 'Unloaded hinge' }).waitFor({ timeout: 40_000 });
    expect(await sound.loudest()).toBeGreaterThan(0.1);
    // Its work is over at once, and its question opens.
    await page.keyboard.press('d');
    await untilStored(page, (log) => log.some(({ type }) => type === 'asked'), 20);
    await speak(page, 'knees forward', { silenceSeconds: 1 });
    const log = await untilStored(page, (log) => log.some(({ type }) => type === 'finding'), 20);
    expect(log.find(({ type }) => type === 'finding')).toMatchObject({
      check: 'hinge-unloaded',
      faults: ['knees-forward'],
      source: { by: 'voice' },
    });
    expect(complaints).toEqual([]);
  });

  it('the page can be installed: Chromium finds nothing wrong with its manifest', async () => {
    await page.goto(address());
    const devtools = await context.newCDPSession(page);
    const { url, errors, data } = await devtools.send('Page.getAppManifest');
    expect(url).toBe(`${address()}manifest.webmanifest`);
    expect(errors).toEqual([]);
    const manifest = JSON.parse(data ?? '') as {
      start_url: string;
      display: string;
      icons: { src: string; sizes: string; purpose?: string }[];
    };
    expect(new URL(manifest.start_url, url).href).toBe(address());
    expect(manifest.display).toBe('standalone');
    const { installabilityErrors } = await devtools.send('Page.getInstallabilityErrors');
    // A bare profile counts as a private window, which never installs.
    const wrong = installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito');
    expect(wrong).toEqual([]);
    const drawn = manifest.icons.filter(({ sizes }) => sizes !== 'any');
    expect(drawn.map(({ purpose = 'any', sizes }) => `${purpose} ${sizes}`).sort()).toEqual([
      'any 192x192',
      'any 512x512',
      'maskable 512x512',
    ]);
    for (const { src, sizes } of drawn) {
      const size = await page.evaluate(async (src) => {
        const image = new Image();
        image.src = src;
        await image.decode();
        return `${image.naturalWidth}x${image.naturalHeight}`;
      }, src);
      expect(size).toBe(sizes);
    }
  });
});

describe('a new version', () => {
  it('that comes in mid-session waits; the old page keeps its own files until it is taken', async () => {
    await openAndKeep();
    await begin(page, 'touch');
    await page.getByRole('button', { name: 'Stop' }).waitFor();
    await page.evaluate(() => Object.assign(window, { sameLoad: true }));
    await publishNewVersion();
    await newVersionComes();
    // The session runs on, in the same load of the page, and nothing is offered in it.
    await page.keyboard.press('Escape');
    await page.getByRole('heading', { name: 'Stopped' }).waitFor();
    expect(await page.evaluate(() => 'sameLoad' in window)).toBe(true);
    expect(await page.getByText(/new version/).count()).toBe(0);
    // The server has the script no more; this version of the page does.
    expect(await statusOf(lazyScript())).toBe(200);

    // Loaded anew in the middle of the session it is still the old one, whole.
    await page.reload();
    await page.getByText('A new version of Sayso is here.').waitFor();
    expect(await page.title()).toBe('Sayso');
    expect(await statusOf(lazyScript())).toBe(200);

    const other = await context.newPage();
    await other.goto(address());
    await page.getByRole('button', { name: 'Take the new version' }).click();
    await page.getByText('Close its other pages first.').waitFor();
    expect(await page.title()).toBe('Sayso');
    await other.close();

    await Promise.all([
      page.waitForNavigation(),
      page.getByRole('button', { name: 'Take the new version' }).click(),
    ]);
    expect(await page.title()).toBe('New');
    await page.getByText(WORKS).waitFor({ timeout: 30_000 });
    expect(await statusOf(lazyScript())).toBe(404);
    expect(complaints).toEqual([]);
  });
});

describe('no room on the device', () => {
  it('is said, and the session runs all the same', async () => {
    const devtools = await context.newCDPSession(page);
    const { origin } = new URL(address());
    const roomFor = (quotaSize: number) =>
      devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize });
    await roomFor(20_000_000);
    await page.goto(address());
    await page.getByText(/No room on this device to keep Sayso/).waitFor({ timeout: 60_000 });
    // Less than what is kept by now: it gives way to the record of the session.
    await roomFor(3_000_000);
    await begin(page, 'touch');
    await page.getByRole('button', { name: 'Stop' }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('heading', { name: 'Stopped' }).waitFor();
    await untilStored(page, (log) => log.some(({ type }) => type === 'started'), 10);
    expect(complaints).toEqual([]);
  });
});

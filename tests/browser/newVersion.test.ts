import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { buildServiceWorker } from '../../src/offline/plugin';
import { keptPage, WORKS, type KeptPage } from './keptPage';
import { begin, DIST, untilStored } from './opening';

let kept: KeptPage;
beforeEach(async () => {
  kept = await keptPage();
});
afterEach(() => kept.close());

/** Another version of the page lies on the server from now on: another title, a script gone. */
async function publishNewVersion(): Promise<void> {
  const { folder: sayso } = kept;
  const html = readFileSync(join(sayso, 'index.html'), 'utf8');
  writeFileSync(
    join(sayso, 'index.html'),
    html.replace('<title>Sayso</title>', '<title>New</title>'),
  );
  rmSync(join(sayso, 'assets', lazyScript()));
  await buildServiceWorker(
    sayso,
    fileURLToPath(new URL('../../src/offline/serviceWorker.ts', import.meta.url)),
  );
}

/** A script that the gate does not fetch. */
const lazyScript = () =>
  readdirSync(join(DIST, 'assets')).find((name) => /^VoiceCheck.*js$/.test(name))!;

const statusOf = (path: string) =>
  kept.page.evaluate(async (path) => (await fetch(path)).status, `assets/${path}`);

const newVersionComes = () =>
  kept.page.evaluate(async () => {
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

describe('on the device', () => {
  it('the page can be installed: Chromium finds nothing wrong with its manifest', async () => {
    const { page, context, address } = kept;
    await page.goto(address);
    const devtools = await context.newCDPSession(page);
    const { url, errors, data } = await devtools.send('Page.getAppManifest');
    expect(url).toBe(`${address}manifest.webmanifest`);
    expect(errors).toEqual([]);
    const manifest = JSON.parse(data ?? '') as {
      start_url: string;
      display: string;
      icons: { src: string; sizes: string; purpose?: string }[];
    };
    expect(new URL(manifest.start_url, url).href).toBe(address);
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
    const { page, context, address, complaints } = kept;
    await kept.openAndKeep();
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
    await other.goto(address);
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
    const { page, context, address, complaints } = kept;
    const devtools = await context.newCDPSession(page);
    const { origin } = new URL(address);
    const roomFor = (quotaSize: number) =>
      devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize });
    await roomFor(20_000_000);
    await page.goto(address);
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

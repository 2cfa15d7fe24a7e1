import type { Page } from 'playwright-core';
import { afterEach, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { plannedWarmUp } from '../../src/cli/warmUps';
import type { WarmUp } from '../../src/domain/warmUp/warmUp';
import { readWav } from '../../src/ear/node';
import { HEARD_RATE } from '../../src/ear/resampling';
import { BEATS_WITHIN_MILLISECONDS, beatsOff } from '../bench/rendered/beats';
import { h1, open, type Opened } from './opening';
import { faultsAtAll } from './standing';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

it('a warm-up is built by typing and dragging, kept, saved as a sound file whose beats lie in place, and led', async () => {
  // High enough for two blocks at once.
  opened = await open({ permission: 'denied', viewport: { width: 900, height: 1500 } });
  const { page, complaints } = opened;
  const button = (name: string | RegExp) =>
    page.getByRole('button', { name, exact: typeof name === 'string' });
  await button('Athletes').click();
  await button('Warm up a group').click();
  await button('Build a new one').click();
  await h1(page, 'Build a warm-up');
  await page.getByLabel('Name').fill('the short one');
  for (const typed of ['post squat 20 10', 'wall hinge 20 10']) {
    await page.getByLabel('Add a block: type its drill').fill(typed);
    await page.keyboard.press('Enter');
  }
  await page.getByText(/^It takes 1 minute \d+ seconds, 2 turns\.$/).waitFor();

  // The second is dragged before the first.
  const handles = page.locator('.blocks .handle');
  await handles.nth(0).scrollIntoViewIfNeeded();
  await handles.nth(1).scrollIntoViewIfNeeded();
  const [from, to] = [await handles.nth(1).boundingBox(), await handles.nth(0).boundingBox()];
  await page.mouse.move(from!.x + 10, from!.y + 10);
  await page.mouse.down();
  await page.mouse.move(to!.x + 10, to!.y - 40, { steps: 5 });
  await page.mouse.up();
  expect(await page.locator('.blocks h3').allTextContents()).toEqual([
    '1. The wall hinge',
    '2. The post squat',
  ]);
  expect(await faultsAtAll(page)).toEqual([]);

  // On paper there are the cards of the stations, each on a page of its own, and nothing else.
  await page.getByLabel('At stations').check();
  expect(await pagesPrinted(page)).toBe(2);
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('.parts, .total-bar, h1').evaluateAll(areSeen)).toBe(false);
  expect(await page.locator('.station-card').evaluateAll(areSeen)).toBe(true);
  await page.emulateMedia({ media: null });
  await page.getByLabel('Everybody together').check();

  await button('Take out: The post squat').click();
  await button('Keep it on this device').click();
  await page.getByText('“the short one” is kept on this device.').waitFor();

  const waiting = page.waitForEvent('download', { timeout: 60_000 });
  await button('Save as a sound file').click();
  const download = await waiting;
  expect(download.suggestedFilename()).toBe('the-short-one.wav');
  const kept = await page.evaluate(() => localStorage.getItem('sayso-warm-ups-en'));
  const { warmUps } = JSON.parse(kept!) as { warmUps: WarmUp[] };
  const plan = plannedWarmUp(bookOf(), warmUps[0]!);
  const samples = await readWav(await download.path());
  expect(Math.abs(samples.length / HEARD_RATE - plan.totalSeconds)).toBeLessThan(1.1);
  const off = beatsOff(samples, HEARD_RATE, plan.heard);
  expect(off).toHaveLength(6);
  for (const { atSeconds, milliseconds } of off)
    expect(Math.abs(milliseconds), `the beat at ${atSeconds} s`).toBeLessThan(
      BEATS_WITHIN_MILLISECONDS,
    );

  await button(/begin by touch/).click();
  await page.locator('main.run .cue').filter({ hasText: 'Welcome to the short one.' }).waitFor();
  await h1(page, 'The wall hinge');
  await button('Stop').click();
  await button('Yes, end it').click();
  await h1(page, 'The warm-up is over');
  expect(complaints).toEqual([]);
}, 120_000);

const pagesPrinted = async (page: Page): Promise<number> =>
  (await page.pdf({ format: 'A4' })).toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length ?? 0;

/** In the page. */
const areSeen = (elements: Element[]): boolean =>
  elements.some((element) => element.checkVisibility());

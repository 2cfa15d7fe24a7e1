import { afterEach, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import type { Entry } from '../../../src/domain/log';
import { handMicrophone, speak } from '../handMicrophone';
import { open, storedLog, storedRows, untilStored, type Opened } from '../opening';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

async function add(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Add an athlete' }).click();
  await page.getByRole('textbox', { name: 'Name' }).fill(name);
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name, level: 1 }).waitFor();
  await page.getByRole('button', { name: 'Athletes' }).click();
}

const next = (page: Page, name: string) =>
  page.getByRole('heading', { name: `Next: ${name}` }).waitFor({ timeout: 20_000 });

/** To a question, by keys past the welcome and the work. */
async function toQuestion(page: Page): Promise<Entry[]> {
  await untilStored(page, (log) => log.some(({ type }) => type === 'decision'), 20);
  await page.keyboard.press('n');
  await page.getByRole('heading', { name: 'Hinge with the bar' }).waitFor();
  await page.keyboard.press('d');
  await page.getByRole('button', { name: 'Held' }).waitFor();
  return untilStored(page, (log) => log.some(({ type }) => type === 'asked'), 20);
}

/** Ends the session that runs, by keys. */
async function endSession(page: Page): Promise<void> {
  await untilStored(page, (log) => log.some(({ type }) => type === 'decision'), 20);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Yes, end it' }).waitFor();
  await page.keyboard.press('y');
}

it('two athletes: next person by voice, a killed tab, back at the open session, and what came of it', async () => {
  opened = await open({ isHeard: true, before: handMicrophone });
  const { page, complaints } = opened;
  await page.getByRole('button', { name: 'Athletes' }).click();
  await add(page, 'Quib Marn');
  await add(page, 'Vennel Ashgrove');
  await page.getByRole('button', { name: 'Squad day' }).click();
  await page.getByRole('button', { name: /Tick everybody/ }).click();
  await page.locator('input[value="hinge"]').check();
  await page.getByRole('button', { name: 'begin by voice' }).click();

  await next(page, 'Quib Marn');
  await page.keyboard.press('PageDown');
  await page.getByText('For Quib Marn · 1 left after that').waitFor();
  const first = await toQuestion(page);
  await page.getByText('The ear is still loading').waitFor({ state: 'hidden', timeout: 30_000 });
  await speak(page, 'next person', { silenceSeconds: 1 });
  await next(page, 'Vennel Ashgrove');
  expect((await storedLog(page)).some(({ type }) => type === 'ended')).toBe(false);

  await page.reload();
  await page.getByRole('button', { name: 'Go on with the squad day: 2 left' }).click();
  await next(page, 'Vennel Ashgrove');
  await page.keyboard.press('PageDown');
  await page.getByText('For Vennel Ashgrove · 1 left after that').waitFor();
  await endSession(page);

  await next(page, 'Quib Marn');
  await page.keyboard.press('PageDown');
  await page.getByText('For Quib Marn · the last one').waitFor();
  // The very question that was left open.
  await page.getByRole('heading', { name: 'Hinge with the bar' }).waitFor();
  await page.getByRole('button', { name: 'Held' }).waitFor({ timeout: 20_000 });
  await endSession(page);

  await page.getByRole('heading', { name: 'The squad day is over' }).waitFor({ timeout: 20_000 });
  await page.getByText('2 of 2 athletes seen.').waitFor();
  const sessions = new Set((await storedRows(page)).map(({ session }) => session));
  expect(sessions.size).toBe(2);
  expect(sessions).toContain(first[0]?.id.split(':')[0]);
  await page.getByRole('button', { name: 'To the page of Quib Marn' }).click();
  await page.getByRole('region', { name: 'Visits' }).getByRole('button').waitFor();
  expect(complaints).toEqual([]);
}, 120_000);

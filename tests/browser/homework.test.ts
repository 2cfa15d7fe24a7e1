import type { Page } from 'playwright-core';
import { afterEach, expect, it } from 'vitest';
import { h1, open, storedRows, type Opened } from './opening';
import { speakAtOnce } from './quickVoice';
import { faultsAtAll } from './standing';

const opened: Opened[] = [];
afterEach(async () => {
  for (const one of opened.splice(0)) await one.close();
});

async function aDevice(): Promise<Opened> {
  const one = await open({ permission: 'denied', before: speakAtOnce });
  opened.push(one);
  return one;
}

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });

/** The link as it is shown; the clipboard of a test belongs to nobody. */
async function linkOn(page: Page): Promise<string> {
  await page.getByText('Show the link').click();
  return (await page.locator('.link').textContent()) ?? '';
}

/** A set by touch: its work is done, and it was good; then it is ended. */
async function doSome(page: Page): Promise<void> {
  await button(page, 'Done').click({ timeout: 60_000 });
  await page.getByRole('button', { name: 'Held', exact: true }).click();
  await button(page, 'Done').waitFor();
  await page.keyboard.press('Escape');
  await button(page, 'Yes, end it').click();
  await h1(page, 'Session ended');
}

it('homework goes over by link, is agreed to, done by touch and comes back as reported by the athlete', async () => {
  const coach = await aDevice();
  await button(coach.page, 'Athletes').click();
  await button(coach.page, 'Show an invented club').click();
  await coach.page.getByText('Velvet Anvil').click();
  const visits = coach.page.getByRole('region', { name: 'Visits' });
  await visits.getByRole('button').first().click();
  await button(coach.page, 'Hand over the homework').click();
  const link = await linkOn(coach.page);
  expect(link).toMatch(/^http:\/\/localhost:\d+\/#homework=[\w-]{100,800}$/);
  await coach.page.getByText('Show a code').click();
  await coach.page.getByRole('img', { name: /QR code/ }).waitFor();
  const faults = { visit: await faultsAtAll(coach.page) };

  const athlete = await aDevice();
  const { page } = athlete;
  // The page that is open takes a link too.
  await page.goto(`${new URL(page.url()).origin}/${link.slice(link.indexOf('#'))}`);
  await h1(page, 'Your homework');
  expect(await button(page, /begin by touch/).isDisabled()).toBe(true);
  Object.assign(faults, { homework: await faultsAtAll(page) });
  await page.getByLabel(/I am 18 or older/).check();
  await button(page, /begin by touch/).click();
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  expect(page.url()).not.toContain('#');
  await doSome(page);
  await button(page, 'Send it back to the coach').click();
  const back = await linkOn(page);
  expect(back).toContain('#report=');
  Object.assign(faults, { done: await faultsAtAll(page) });
  await page.reload();
  await button(page, /^Open your homework of/).click();
  await h1(page, 'Your homework');
  await page.getByText('Done once').waitFor();

  await coach.page.goto(`${new URL(coach.page.url()).origin}/${back.slice(back.indexOf('#'))}`);
  await h1(coach.page, 'Homework came back');
  await coach.page.getByRole('heading', { name: 'Velvet Anvil' }).waitFor();
  Object.assign(faults, { report: await faultsAtAll(coach.page) });
  await button(coach.page, 'Take it into the record').click();
  await button(coach.page, 'To the page of Velvet Anvil').click();
  await visits.getByText(/reported by the athlete/).click();
  await coach.page.getByText('Reported by the athlete: nobody else saw it').waitFor();
  const rows = await storedRows(coach.page);
  const start = rows.find(({ entry }) => (entry as { routine?: string }).routine === 'homework');
  expect(start?.entry).toMatchObject({ way: 'alone', person: expect.any(String) });
  expect(faults).toEqual({ visit: [], homework: [], done: [], report: [] });
  expect([...coach.complaints, ...athlete.complaints]).toEqual([]);
}, 120_000);

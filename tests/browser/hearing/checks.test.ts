import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { addOwnWords } from '../gate';
import { speak, type Handed } from '../handMicrophone';
import { heardPage, holdEar } from '../heard';
import { toGate } from '../opening';

const heard = heardPage();

/** A fan, so many decibels below full scale, from now on. */
const turnOnFan = (page: Page, decibels: number) =>
  page.evaluate((below) => {
    const peak = Math.sqrt(3) * 10 ** (below / 20);
    const noise = Array.from({ length: 16000 * 120 }, () => peak * (2 * Math.random() - 1));
    void (window as unknown as Handed).speak(noise, 16000);
  }, decibels);

/** Says each reply as it is asked for, until the results are shown. A pedal hurries Sayso on. */
async function sayAll(page: Page): Promise<void> {
  const over = page.getByRole('heading', { name: 'From where you stand' });
  const hint = page.locator('.say-hint');
  for (;;) {
    await over.or(hint).first().waitFor();
    if (await over.isVisible()) return;
    const told = await hint
      .first()
      .textContent({ timeout: 1000 })
      .catch(() => '');
    if (told?.includes('Say it now.') === true) {
      const line = (await page.locator('.say-line').textContent()) ?? '';
      await speak(page, line.replace(/[“”,]/g, ''));
    } else if (told?.includes('listens to the room') !== true)
      await page.keyboard.press('PageDown');
    await page.waitForFunction(
      (before) => document.querySelector('.say-hint')?.textContent !== before,
      told,
    );
  }
}
const row = (page: Page, name: RegExp) => page.getByRole('row', { name }).locator('td').last();
const decibelsIn = async (page: Page) =>
  Number.parseInt((await row(page, /above the room/).textContent()) ?? '', 10);

/** Reads every line aloud as it comes, until the results are shown. The lines in their order. */
async function readAll(page: Page): Promise<string[]> {
  const read: string[] = [];
  const line = page.locator('#line');
  const over = page.getByRole('heading', { name: 'How you are heard' });
  const waits = page.getByRole('button', { name: 'Go on' });
  for (;;) {
    await page
      .getByText(/Read it aloud|Once more|Other words/)
      .or(over)
      .or(waits)
      .first()
      .waitFor();
    if (await over.isVisible()) return read;
    // A busy machine may hear two lines too late.
    if (await waits.isVisible()) {
      await waits.click();
      continue;
    }
    const [text, hint] = [await line.textContent(), await page.locator('.line-hint').textContent()];
    read.push(text ?? '');
    await speak(page, text ?? '');
    // Another line, another hint, or the end.
    await page.waitForFunction(
      ([before, told]) =>
        document.querySelector('#line')?.textContent !== before ||
        document.querySelector('.line-hint')?.textContent !== told,
      [text, hint],
      { timeout: 30_000 },
    );
  }
}

describe("a coach's own words", () => {
  it('are checked by their sound, listed, and taken away again', async () => {
    const { page, complaints } = heard();
    await addOwnWords(page, 'limited', 'fast');
    await page.getByText('sounds too much like “faster”').waitFor();
    await page.getByLabel('I say').fill('So-so');
    await page.getByRole('button', { name: 'Add' }).click();
    const listed = page.getByText('“so so” for “limited”');
    await listed.waitFor({ timeout: 20_000 });
    await page.getByRole('button', { name: 'Remove “so so”' }).click();
    await listed.waitFor({ state: 'hidden' });
    expect(complaints).toEqual([]);
  });
});

it('three replies near the phone are heard well; with a fan beside it, it says what to do', async () => {
  const { page, complaints } = heard();
  await page.getByRole('button', { name: 'Check it from where you stand' }).click();
  await sayAll(page);
  const well = page.getByRole('heading', { name: 'It hears you well from there.' });
  // A busy machine may hear one too late, and says so; a coach would say them again.
  for (let more = 2; more > 0 && !(await well.isVisible()); more -= 1) {
    await page.getByRole('button', { name: 'Again' }).click();
    await sayAll(page);
  }
  expect(await well.isVisible()).toBe(true);
  expect(await row(page, /heard right/).textContent()).toContain('3 of 3');
  expect(await decibelsIn(page)).toBeGreaterThan(30);

  await turnOnFan(page, -24);
  await page.getByRole('button', { name: 'Again' }).click();
  await sayAll(page);
  await page.getByText('Not as good as before.').waitFor();
  await page.evaluate(() => (window as unknown as Handed).hush());
  expect(await decibelsIn(page)).toBeLessThan(10);
  expect(await page.locator('.advice').textContent()).toMatch(/nearer|earbuds/);

  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Check it from where you stand' }).waitFor();
  const kept = await page.evaluate(() => localStorage.getItem('sayso-microphone'));
  expect(JSON.parse(kept ?? '{}')).toMatchObject({
    words: expect.stringMatching(/nearer|earbuds/),
  });
  expect(complaints).toEqual([]);
});

describe('a voice check', () => {
  it('is read aloud hands free, fits the ear, is kept over a reload, and forgotten in one tap', async () => {
    const { page, complaints } = heard();
    await addOwnWords(page, 'limited', 'so so');
    await page.getByRole('button', { name: 'Check my voice' }).click();
    const read = await readAll(page);
    expect(new Set(read).size).toBeGreaterThanOrEqual(20);
    expect(read).toContain('so so');
    expect(await page.locator('.results').allTextContents()).not.toContain('so so');
    const verdict = await page.locator('.tally').textContent();
    const [, well, of] = /^(\d+) of (\d+) replies/.exec(verdict ?? '') ?? [];
    // A busy machine hears some too late, and one or two not at all.
    expect(Number(of)).toBeGreaterThanOrEqual(18);
    expect(Number(well)).toBeGreaterThanOrEqual(15);
    await page.getByText('Sayso has fitted itself to your voice').waitFor();

    await holdEar(heard());
    await page.reload();
    await toGate(page);
    await page.getByText('Sayso is fitted to your voice.').waitFor();
    await page.getByRole('button', { name: 'Forget my voice' }).click();
    await page.getByText('Read twenty replies aloud').waitFor();
    const kept = await page.evaluate(() => localStorage.getItem('sayso-coach'));
    expect(JSON.parse(kept ?? '{}')).toMatchObject({ readings: [] });
    expect(complaints).toEqual([]);
  }, 240_000);
});

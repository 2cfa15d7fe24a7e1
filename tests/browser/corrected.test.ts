import { afterEach, expect, it } from 'vitest';
import { open, type Opened } from './opening';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

it('a past visit is corrected and noted upon, and after a reload it still is', async () => {
  opened = await open({ isOnDisk: true });
  const { page, complaints } = opened;
  await page.getByRole('button', { name: 'Athletes' }).click();
  await page.getByRole('button', { name: 'Show an invented club' }).click();
  const lastVisit = async () => {
    await page.getByText('Kettle Sparrow').click();
    await page.getByRole('region', { name: 'Visits' }).getByRole('button').first().click();
    await page.getByRole('heading', { name: 'Outcome' }).waitFor();
  };
  await lastVisit();
  const outcome = page.locator('.outcome-word');
  await outcome.filter({ hasText: 'Ready to be taught' }).waitFor();
  await page.locator('summary', { hasText: 'to look at and correct' }).click();
  await page.getByRole('button', { name: 'Correct Hinge with the bar' }).click();
  await page.getByLabel('Lost', { exact: true }).check();
  await page.getByLabel('back rounded').check();
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await outcome.filter({ hasText: 'Working' }).waitFor();
  await page.getByRole('textbox', { name: 'Add a note' }).fill('Misheard beside the rack.');
  await page.getByRole('button', { name: 'Keep the note' }).click();
  await page.locator('.note-text').waitFor();
  await page.reload();
  await page.getByText('Kettle Sparrow').waitFor();
  await lastVisit();
  await outcome.filter({ hasText: 'Working' }).waitFor();
  await page.getByText('Misheard beside the rack.').waitFor();
  await page.locator('summary', { hasText: 'to look at and correct' }).click();
  expect(await page.locator('.history').allTextContents()).toEqual([
    expect.stringMatching(/^held corrected to lost \(back rounded\), on /),
  ]);
  expect(complaints).toEqual([]);
}, 60_000);

import { afterEach, expect, it } from 'vitest';
import { begin, h1, open, storedRows, type Opened } from './opening';
import { faultsAtAll } from './standing';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

const PASSPHRASE = 'kettle under violet ladder';

it('a record is locked, opens with its passphrase alone, and a session that was cut off goes on after it', async () => {
  opened = await open({ isOnDisk: true });
  const { page, complaints } = opened;
  const unlock = async (passphrase: string) => {
    await h1(page, 'Sayso is locked');
    await page.getByLabel('Passphrase').fill(passphrase);
    await page.keyboard.press('Enter');
  };
  await page.getByRole('button', { name: 'Athletes' }).click();
  await page.getByRole('button', { name: 'Add an athlete' }).click();
  await page.getByLabel('Name').fill('Quib Marn');
  await page.keyboard.press('Enter');
  await h1(page, 'Quib Marn');
  await page.getByRole('button', { name: 'Athletes' }).click();
  await page.getByRole('button', { name: /^The record/ }).click();
  await page.getByText('Choose a passphrase').click();
  await page.getByLabel('New passphrase', { exact: true }).fill(PASSPHRASE);
  await page.getByLabel('New passphrase once more').fill(PASSPHRASE);
  await page.getByRole('button', { name: 'Lock the record' }).click();
  await page.getByRole('button', { name: 'Lock now' }).waitFor();
  const faults = { record: await faultsAtAll(page) };
  await page.getByRole('button', { name: 'Lock now' }).click();

  await unlock('kettle under violet');
  await page.getByText(/does not open the record. Nothing was lost/).waitFor();
  expect({ ...faults, locked: await faultsAtAll(page) }).toEqual({ record: [], locked: [] });
  expect(await page.getByText('Quib').count()).toBe(0);
  await unlock(PASSPHRASE);
  await page.getByRole('button', { name: /Quib Marn/ }).click();
  await page.getByRole('button', { name: 'Begin' }).click();
  await begin(page, 'touch');
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  const rows = await storedRows(page);
  expect(rows.length).toBeGreaterThan(0);
  // Nothing but the seal, and where it lies.
  for (const row of rows)
    expect(
      Object.keys(row).filter((name) => !/^(id|order|session|type|tells)$/.test(name)),
    ).toEqual(['sealed']);

  await page.reload();
  await unlock(PASSPHRASE);
  await page.getByRole('button', { name: /Go on/ }).first().click();
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  expect(complaints).toEqual([]);
}, 120_000);

import { readFileSync } from 'node:fs';
import { afterEach, expect, it } from 'vitest';
import { begin, open, untilStored, type Opened } from './opening';
import { speakAtOnce } from './quickVoice';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

it('an athlete is added, a session begun for them by touch, and their page has the visit', async () => {
  opened = await open({ before: speakAtOnce });
  const { page, complaints } = opened;
  await page.getByRole('button', { name: 'Athletes' }).click();
  await page.getByRole('button', { name: 'Add an athlete' }).click();
  await page.getByLabel('Name').fill('Quib Marn');
  await page.getByLabel('Birth year').fill('1999');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Quib Marn' }).waitFor();
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.getByRole('heading', { name: 'Begin for Quib Marn' }).waitFor();
  await begin(page, 'touch');
  await untilStored(page, (entries) => entries.some(({ type }) => type === 'decision'), 20);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: /yes/i }).click();
  await page.getByRole('button', { name: 'To the page of Quib Marn' }).click();
  await page.getByRole('region', { name: 'Visits' }).getByRole('button').click();
  await page.locator('.finished summary', { hasText: 'in their order' }).last().click();
  await page.getByText('We begin with the unloaded hinge.').waitFor();
  const log = await untilStored(page, (entries) => entries.at(-1)?.type === 'ended', 10);
  expect(log[0]).toMatchObject({ type: 'started', way: 'hands-on' });
  // The log knows an id and an age, and no name.
  expect(JSON.stringify(log)).not.toContain('Quib');
  expect(complaints).toEqual([]);
}, 60_000);

it('the invented club comes with one tap, survives a reload, and leaves with one', async () => {
  opened = await open({ isOnDisk: true });
  const { page, complaints } = opened;
  await page.getByRole('button', { name: 'Athletes' }).click();
  await page.getByRole('button', { name: 'Show an invented club' }).click();
  await page.getByText('12 athletes').waitFor();
  await page.reload();
  await page.getByText('12 athletes').waitFor();
  expect(await page.locator('.person', { hasText: 'Invented' }).count()).toBe(12);
  await page.getByRole('button', { name: 'Take the invented club away' }).click();
  await page.getByText('Nobody is kept here yet').waitFor();
  expect(complaints).toEqual([]);
}, 60_000);

it('a list with a mistake is mended and imported, somebody of it found, and all of it exported', async () => {
  opened = await open();
  const { page, complaints } = opened;
  await page.getByRole('button', { name: 'Athletes' }).click();
  await page.getByRole('button', { name: 'Import a list' }).click();
  const list = (born: string) => ({
    ...{ name: 'harbour.csv', mimeType: 'text/csv' },
    buffer: Buffer.from(`Name;Team;Born\nQuib Marn;Harbour;1999\nŽo Ashgrove;Harbour;${born}\n`),
  });
  const file = page.getByLabel(/^Choose/);
  await file.setInputFiles(list('98'));
  await page.getByText('Line 3, Born').waitFor();
  await file.setInputFiles(list('1998'));
  await page.getByRole('button', { name: 'Add 2 athletes' }).click();
  await page.getByRole('button', { name: 'To the athletes' }).click();
  await page.getByLabel('Show').selectOption({ label: 'Harbour (2)' });
  await page.getByLabel('Find by name or squad').fill('zo');
  await page.getByRole('button', { name: /^Žo Ashgrove/ }).waitFor();
  await page.getByText('Export the list').click();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Who they are' }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/^sayso-athletes-\d{4}-\d\d-\d\d\.csv$/);
  const lines = readFileSync(await download.path(), 'utf8')
    .trim()
    .split('\r\n');
  expect(lines.slice(1).sort()).toEqual([
    expect.stringMatching(/^Quib Marn,Harbour,1999,/),
    expect.stringMatching(/^Žo Ashgrove,Harbour,1998,/),
  ]);
  expect(complaints).toEqual([]);
}, 60_000);

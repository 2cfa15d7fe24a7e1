import { afterEach, expect, it } from 'vitest';
import { bookOf } from '../../../src/cli/verb';
import { open, untilStored, watchSound, type Opened } from '../opening';

/** The first cue of the next set: its one fix. */
const NEXT_CUE =
  bookOf().drills['bell-hinge']?.fixes.find(({ fault }) => fault === 'knees-forward')?.cue ?? '';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

it('a newcomer without a microphone watches a recorded coach drive a real session', async () => {
  opened = await open({ isHeard: true, permission: 'denied' });
  const { page, complaints } = opened;
  await page.locator('input[value="hinge"]').check();
  await page.getByRole('button', { name: 'Watch a rehearsal' }).click();
  const sound = await watchSound(page);
  // The check is cut short by hand; of the set, its first repetition is enough.
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  await page.getByRole('button', { name: 'Done', exact: true }).click({ timeout: 60_000 });
  await untilStored(page, (log) => log.some(({ type }) => type === 'finding'), 60);
  await page.getByRole('button', { name: 'Set done' }).click({ timeout: 200_000 });
  const log = await untilStored(
    page,
    (log) => log.filter(({ type }) => type === 'finding').length > 1,
    60,
  );
  expect(log.filter(({ type }) => type === 'finding')).toMatchObject([
    { check: 'hinge-unloaded', faults: ['knees-forward'], source: { by: 'voice' } },
    { drill: 'bell-hinge', faults: ['knees-forward'], source: { by: 'voice' } },
  ]);
  const after = await untilStored(
    page,
    (log) => log.filter(({ type }) => type === 'decision').length > 2,
    10,
  );
  expect(after.filter(({ type }) => type === 'decision').at(-1)).toMatchObject({
    to: 'bell-hinge',
    rule: '3.1',
  });
  await sound.loudest();
  await page.getByText(NEXT_CUE).waitFor();
  await expect.poll(() => sound.loudest(), { timeout: 10_000 }).toBeGreaterThan(0.1);
  expect(complaints).toEqual([]);
}, 300_000);

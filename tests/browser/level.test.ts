/** The phone as a level in a real browser, whose sensor the browser itself overrides. */
import { afterEach, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { begin, h1, open, untilStored, type Opened } from './opening';
import { linesTake, speakAtOnce } from './quickVoice';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

const G = 9.81;
/** The long edge upright, tilted sideways by so many degrees. */
const tilted = (degrees: number) => ({
  x: G * Math.sin((degrees * Math.PI) / 180),
  y: G * Math.cos((degrees * Math.PI) / 180),
  z: 0,
});

/** The browser's own override of its sensor. */
async function holdPhone(page: Page) {
  const browser = await page.context().newCDPSession(page);
  const type = 'gravity';
  const enable = (enabled: boolean) =>
    browser.send('Emulation.setSensorOverrideEnabled', { enabled, type });
  await enable(true);
  return {
    at: (xyz: { x: number; y: number; z: number }) =>
      browser.send('Emulation.setSensorOverrideReadings', { type, reading: { xyz } }),
    lose: () => enable(false),
  };
}

it('is set in two steps, shows the angle of an arm, and is lost without harm', async () => {
  opened = await open({ permission: 'denied', before: speakAtOnce });
  const { page, complaints } = opened;
  // A step is taken by holding still, too, once it was told.
  await linesTake(page, 8000);
  const phone = await holdPhone(page);
  await phone.at(tilted(90));
  await page.locator('summary', { hasText: 'Phone as a level' }).click();
  await page.getByRole('radio', { name: /On an upper arm/ }).check();
  await page.getByRole('button', { name: 'Set it in two steps' }).click();
  await page.getByText('Step 1 of 2:').waitFor();
  await phone.at(tilted(1));
  await page.getByRole('button', { name: /take it now/ }).click();
  await page.getByText('Step 2 of 2:').waitFor();
  await phone.at(tilted(-1));
  await page.getByRole('button', { name: /take it now/ }).click();
  await page.getByText('Set for the next session.').waitFor();

  await linesTake(page, 20);
  await page.locator('input[value="alone"]').check();
  await begin(page, 'touch', 'overhead');
  await h1(page, /standing reach/i);
  await phone.at(tilted(163));
  const level = page.locator('.run .tilt');
  await level.filter({ hasText: /16[234]°.*Arm, by the phone/s }).waitFor({ timeout: 60_000 });
  await phone.lose();
  await level.filter({ hasText: 'The phone tells no angle' }).waitFor();
  const cue = page.locator('.run .cue');
  await cue.filter({ hasText: 'The phone tells no angle now' }).waitFor({ timeout: 60_000 });
  await page.getByRole('button', { name: 'Held', exact: true }).click();
  const log = await untilStored(page, (all) => all.some(({ type }) => type === 'finding'), 20);
  expect(log.find(({ type }) => type === 'finding')).toMatchObject({
    ...{ result: 'held', angleDegrees: null, tool: null },
  });
  expect(complaints).toEqual([]);
}, 180_000);

import type { Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import { begin, open, untilStored, type Opened } from './opening';
import { faultsAtAll, SIZES } from './standing';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

/** Past the welcome and the work, to the question of the last check. */
async function toLastQuestion(page: Page): Promise<void> {
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  await page.locator('.more > summary').click();
  await page.getByRole('button', { name: 'Next rung' }).click();
  await h1(page, 'Hinge with the bar');
  // As by voice: the work is cut short, and the question comes.
  await page.getByRole('button', { name: 'Done' }).click();
  await page.getByRole('button', { name: 'Held', exact: true }).waitFor();
}

const h1 = (page: Page, name: string | RegExp) =>
  page.getByRole('heading', { level: 1, name }).waitFor();

it.each(SIZES)(
  'a session by touch, from the first screen in two taps to its end: $name',
  async ({ name: _, ...viewport }) => {
    opened = await open({ viewport, permission: 'denied' });
    const { page, complaints } = opened;
    await page.getByRole('button', { name: 'Athletes' }).click();
    await h1(page, 'Sayso');
    // Two taps.
    await page.getByRole('button', { name: 'Begin without a name' }).click();
    await page.getByRole('button', { name: /begin by touch/ }).click();
    await toLastQuestion(page);
    const stop = page.locator('button.stop');
    const box = await stop.boundingBox();
    // Hit without looking: as wide as the screen, or as a hand.
    expect(box?.width).toBeGreaterThan(Math.min(360, viewport.width - 40));
    expect(box?.height).toBeGreaterThanOrEqual(64);
    await stop.click();
    await h1(page, 'Stopped');
    await page.getByRole('button', { name: 'No, go on' }).click();
    await page.getByRole('button', { name: 'Held', exact: true }).click();
    await untilStored(page, (log) => log.some(({ type }) => type === 'finding'), 20);
    await page.getByRole('button', { name: 'Back to the start' }).click();
    await h1(page, 'Sayso');
    expect(complaints).toEqual([]);
  },
  90_000,
);

it('a whole session by the keyboard alone, from the first screen and back to it', async () => {
  opened = await open({ permission: 'denied', viewport: { width: 1366, height: 768 } });
  const { page, complaints } = opened;
  await page.reload();
  await h1(page, 'Sayso');
  const focused = () =>
    page.evaluate(() => document.activeElement?.textContent.replace(/\s+/g, ' ').trim() ?? '');
  /** By Tab to the control of that name, which is then pressed. */
  const press = async (name: RegExp) => {
    const passed: string[] = [];
    while (!name.test(await focused())) {
      passed.push(await focused());
      if (passed.length > 60) throw new Error(`Tab never comes to ${name}: ${passed.join(' | ')}`);
      await page.keyboard.press('Tab');
    }
    const seen = await page.evaluate(
      () => getComputedStyle(document.activeElement as Element).outlineStyle,
    );
    expect(seen).not.toBe('none');
    await page.keyboard.press('Enter');
  };
  await press(/^Begin without a name$/);
  await h1(page, 'Begin without a name');
  await press(/begin by touch$/);
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  // Keys of the session from here: on with it, done, held.
  await page.keyboard.press('n');
  await h1(page, 'Hinge with the bar');
  await page.keyboard.press('d');
  const held = page.getByRole('button', { name: 'Held', exact: true });
  await held.waitFor();
  await page.keyboard.press('Escape');
  await h1(page, 'Stopped');
  await page.keyboard.press('n');
  await held.waitFor();
  await page.keyboard.press('ArrowRight');
  await untilStored(page, (log) => log.some(({ type }) => type === 'finding'), 20);
  await page.getByRole('button', { name: 'Back to the start' }).waitFor();
  await press(/^Back to the start$/);
  await h1(page, 'Sayso');
  expect(complaints).toEqual([]);
}, 90_000);

describe('at each size, at 200 % and at 320 pixels nothing is cut off, too small or too pale', () => {
  it('before and after a session', async () => {
    opened = await open({ permission: 'denied' });
    const { page } = opened;
    const faults: Record<string, string[]> = {};
    const look = async (name: string) => {
      const found = await faultsAtAll(page);
      if (found.length > 0) faults[name] = found;
    };
    await look('gate');
    await page.getByRole('button', { name: 'Keys, pedal and headset' }).click();
    await h1(page, 'Keys');
    await look('keys');
    await page.getByRole('button', { name: 'Back', exact: true }).click();
    await page.getByRole('button', { name: 'Athletes' }).click();
    await look('people');
    await page.getByRole('button', { name: 'Show an invented club' }).click();
    await page.getByText('12 athletes', { exact: true }).waitFor();
    await look('people of the club');
    for (const [button, title] of [
      ['Squad day', 'Squad day'],
      ['Import a list', 'Import a list'],
    ] as const) {
      await page.getByRole('button', { name: button }).click();
      await h1(page, title);
      await look(title);
      await page.getByRole('button', { name: 'Athletes' }).click();
    }
    await page.locator('.person').first().click();
    await page.getByRole('button', { name: 'Begin' }).waitFor();
    await look('athlete');
    await page.getByRole('region', { name: 'Visits' }).getByRole('button').first().click();
    await page.getByRole('heading', { name: 'Outcome' }).waitFor();
    await look('visit');
    await page.locator('summary', { hasText: 'to look at and correct' }).click();
    await page
      .getByRole('button', { name: /^Correct / })
      .first()
      .click();
    await page.getByRole('form', { name: /^Correct / }).waitFor();
    await look('a correction');
    expect(faults).toEqual({});
  }, 120_000);

  it('while it runs', async () => {
    opened = await open({ permission: 'denied' });
    const { page } = opened;
    const faults: Record<string, string[]> = {};
    const look = async (name: string) => {
      const found = await faultsAtAll(page);
      if (found.length > 0) faults[name] = found;
    };
    await begin(page, 'touch');
    await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
    await look('a cue');
    await toLastQuestion(page);
    await look('a question');
    await page.getByRole('button', { name: 'Lost…' }).click();
    await look('its faults');
    await page.keyboard.press('Escape');
    await h1(page, 'Stopped');
    await look('stopped');
    await page.keyboard.press('y');
    await page.getByRole('button', { name: 'Back to the start' }).waitFor();
    await look('finished');
    expect(faults).toEqual({});
  }, 120_000);
});

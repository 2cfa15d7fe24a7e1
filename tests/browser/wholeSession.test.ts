import { afterEach, expect, it } from 'vitest';
import { h1, open, toLastQuestion, untilStored, type Opened } from './opening';
import { speakAtOnce } from './quickVoice';
import { SIZES } from './standing';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

it.each(SIZES)(
  'a session by touch, from the first screen in two taps to its end: $name',
  async ({ name, ...viewport }) => {
    opened = await open({
      ...{ viewport, permission: 'denied' },
      // By its own voice once, in true time; the others look at what is shown.
      ...(name === 'phone' ? {} : { before: speakAtOnce }),
    });
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
  opened = await open({
    ...{ permission: 'denied', viewport: { width: 1366, height: 768 } },
    before: speakAtOnce,
  });
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

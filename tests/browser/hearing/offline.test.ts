import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { handMicrophone, speak } from '../handMicrophone';
import { keptPage, type KeptPage } from '../keptPage';
import { begin, untilStored, watchSound } from '../opening';

let kept: KeptPage;
beforeEach(async () => {
  kept = await keptPage();
});
afterEach(() => kept.close());

describe('without network', () => {
  it('a spoken reply is heard and graded, from a page loaded anew, with the server gone', async () => {
    const { page, context, complaints } = kept;
    await context.addInitScript('globalThis.__name ??= (named) => named;');
    await context.addInitScript(handMicrophone);
    await kept.openAndKeep();
    await kept.stopServer();
    await context.setOffline(true);
    await page.reload();
    await page.getByText('The recogniser is loading').waitFor({ state: 'hidden' });
    await begin(page, 'voice');
    const sound = await watchSound(page);
    await page.getByRole('heading', { name: 'Unloaded hinge' }).waitFor({ timeout: 40_000 });
    expect(await sound.loudest()).toBeGreaterThan(0.1);
    // Its work is over at once, and its question opens.
    await page.keyboard.press('d');
    await untilStored(page, (log) => log.some(({ type }) => type === 'asked'), 20);
    await speak(page, 'knees forward', { silenceSeconds: 1 });
    const log = await untilStored(page, (log) => log.some(({ type }) => type === 'finding'), 20);
    expect(log.find(({ type }) => type === 'finding')).toMatchObject({
      check: 'hinge-unloaded',
      faults: ['knees-forward'],
      source: { by: 'voice' },
    });
    expect(complaints).toEqual([]);
  });
});

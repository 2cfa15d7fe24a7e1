import { afterEach, describe, expect, it } from 'vitest';
import { begin, open, toQuestion, untilStored, type Opened } from './opening';
import { speakAtOnce } from './quickVoice';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

describe('the tab is killed in mid-session', () => {
  it('and comes back to the same question, with nothing lost', async () => {
    opened = await open({ isOnDisk: true, before: speakAtOnce });
    const { page } = opened;
    await begin(page, 'touch');
    await toQuestion(opened);
    await page.getByRole('button', { name: 'Held' }).click();
    await page.getByRole('heading', { name: /Hinge with the bar/i }).waitFor({ timeout: 20_000 });
    await toQuestion(opened);
    await untilStored(page, (log) => log.at(-1)?.type === 'asked', 10);
    await page.reload();
    await page.getByRole('button', { name: 'Go on' }).click();
    await page.getByRole('button', { name: 'Held' }).waitFor({ timeout: 20_000 });
    await page.getByRole('button', { name: 'Held' }).click();
    const log = await untilStored(page, (log) => log.at(-1)?.type === 'ended', 40);
    expect(log.filter(({ type }) => type === 'finding')).toMatchObject([
      { check: 'hinge-unloaded', result: 'held', source: { by: 'hand' } },
      { check: 'hinge-bar', result: 'held' },
    ]);
    expect(log.filter(({ type }) => type === 'outcome')).toMatchObject([{ outcome: 'ready' }]);
    await page
      .getByText(/ready to be taught/i)
      .first()
      .waitFor();
  });
});

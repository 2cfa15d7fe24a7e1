import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Entry } from '../../../src/domain/log';
import { bookOf } from '../../../src/cli/verb';
import { handMicrophone, speak } from '../handMicrophone';
import { keptPage, type KeptPage } from '../keptPage';
import { begin, untilStored, watchSound } from '../opening';
import { COACH_VOICE } from '../../../src/voice/node';

/** The first cue of the next set: its one fix. */
const NEXT_CUE =
  bookOf().drills['bell-hinge']?.fixes.find(({ fault }) => fault === 'knees-forward')?.cue ?? '';

let kept: KeptPage;
beforeEach(async () => {
  kept = await keptPage();
});
afterEach(() => kept.close());

const findings = (log: Entry[]) => log.filter((entry) => entry.type === 'finding');
const decisions = (log: Entry[]) => log.filter((entry) => entry.type === 'decision');
const asked = (log: Entry[]) => log.filter((entry) => entry.type === 'asked');

/** Its work is over at once, by key, as over its own voice "done" would not count; then the fault. */
async function answer(page: Page, question: number): Promise<void> {
  await untilStored(page, (log) => decisions(log).length >= question, 40);
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  await page.keyboard.press('d');
  await untilStored(page, (log) => asked(log).length >= question, 40);
  await speak(page, 'knees forward', { voice: COACH_VOICE, silenceSeconds: 1 });
  await untilStored(page, (log) => findings(log).length >= question, 20);
}

/** The spoken fault, its grade, the decision with its rule, and the next drill, as stored. */
const expectHinge = (log: Entry[]) => {
  expect(findings(log)).toMatchObject([
    {
      check: 'hinge-unloaded',
      result: 'lost',
      faults: ['knees-forward'],
      source: { by: 'voice', text: 'knees forward' },
    },
    { drill: 'bell-hinge', result: 'lost', faults: ['knees-forward'] },
  ]);
  expect(decisions(log)).toMatchObject([
    { to: 'hinge-unloaded' },
    { from: 'hinge-unloaded', to: 'bell-hinge', rule: '11.1' },
    { from: 'bell-hinge', to: 'bell-hinge', rule: '3.1' },
  ]);
};

describe('one hinge check and one set', () => {
  it('by a microphone, from a page loaded anew with the server gone: heard, graded, decided, and the next drill cued', async () => {
    const { page, context, complaints } = kept;
    await context.addInitScript('globalThis.__name ??= (named) => named;');
    await context.addInitScript(handMicrophone);
    await kept.openAndKeep();
    await kept.stopServer();
    await context.setOffline(true);
    await kept.letEarCome();
    await page.reload();
    await page.getByText('The recogniser is loading').waitFor({ state: 'hidden' });
    await begin(page, 'voice');
    const sound = await watchSound(page);
    await page.getByRole('heading', { name: 'Unloaded hinge' }).waitFor({ timeout: 40_000 });
    await expect.poll(() => sound.loudest(), { timeout: 10_000 }).toBeGreaterThan(0.1);
    await answer(page, 1);
    await page.getByRole('heading', { name: 'Bell hinge' }).waitFor();
    await answer(page, 2);
    const log = await untilStored(page, (log) => decisions(log).length > 2, 60);
    expectHinge(log);
    await page.getByText('set 2').waitFor();
    // The next drill is being cued, aloud.
    await sound.loudest();
    await page.getByText(NEXT_CUE).waitFor();
    await expect.poll(() => sound.loudest(), { timeout: 10_000 }).toBeGreaterThan(0.1);
    expect(complaints).toEqual([]);
  }, 300_000);
});

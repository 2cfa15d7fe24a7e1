import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Entry } from '../../../src/domain/log';
import { COACH_VOICE } from '../../../src/voice/node';
import { addOwnWords, formAtGate } from '../gate';
import { handMicrophone, speak } from '../handMicrophone';
import { begin, open, toGate, untilStored, type Opened } from '../opening';

/** One coach at one page: what is chosen at the gate stays for the next session. */
let opened: Opened;
let page: Page;
beforeAll(async () => {
  opened = await open({ isHeard: true, before: handMicrophone });
  page = opened.page;
  const better = page.getByText('the better one is on its way');
  await better.waitFor();
  await better.waitFor({ state: 'hidden' });
});
afterAll(() => opened.close());

const say = (text: string, silenceSeconds = 0) =>
  speak(page, text, { voice: COACH_VOICE, silenceSeconds });
const findings = (log: Entry[]) => log.filter((entry) => entry.type === 'finding');
/** Answers a question; where Sayso is not sure and offers it, the coach says yes. */
async function answer(text: string): Promise<Entry[]> {
  await say(text);
  const isOffered = (log: Entry[]) => log.some(({ type }) => type === 'heard');
  const log = await untilStored(page, (log) => findings(log).length > 0 || isOffered(log), 20);
  // By key: over Sayso's own question a spoken yes does not count.
  if (findings(log).length === 0) await page.keyboard.press('y');
  return untilStored(page, (log) => findings(log).length > 0, 20);
}
/** Stops as soon as a reply was taken: said once, it must land. */
const stop = async () => {
  await say('stop', 1);
  await page.getByRole('heading', { name: 'Stopped' }).waitFor({ timeout: 4000 });
};

/** A session by voice, to its first question: by keys past the welcome and the work. */
async function toQuestion(): Promise<void> {
  await begin(page, 'voice');
  await page.locator('main.run').getByRole('meter').waitFor();
  // Before the first word there is nothing to leave out.
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  await page.keyboard.press('n');
  await page.getByRole('heading', { name: 'Hinge with the bar' }).waitFor();
  await page.keyboard.press('d');
  await page.getByRole('button', { name: 'Held' }).waitFor();
  await untilStored(page, (log) => log.some(({ type }) => type === 'asked'), 20);
}

describe('what a coach chose at the gate counts in the session', () => {
  it('a word that no dictionary has, added for "limited", is heard and taken', async () => {
    await addOwnWords(page, 'limited', 'kerfuffled');
    await page.getByText('“kerfuffled” for “limited”', { exact: true }).waitFor();
    await toQuestion();
    const log = await answer('kerfuffled');
    expect(findings(log)).toMatchObject([
      { result: 'short', faults: [], source: { by: 'voice', text: 'kerfuffled' } },
    ]);
    await stop();
    await page.keyboard.press('y');
    await page.getByRole('button', { name: 'Back to the start' }).click();
  });

  it('with a call word a reply without it is not taken, one after it is, and "stop" always halts', async () => {
    await toGate(page);
    const form = await formAtGate(page, 'Call word');
    await form.getByLabel('Call word').fill('Captain');
    await form.getByRole('button', { name: 'Use it' }).click();
    await form.getByText('Replies count only after “captain”').waitFor();
    await toQuestion();
    await page.getByText('You can say, after “captain”').waitFor();
    // Silence enough for two replies to be two.
    await say('pass', 1.5);
    await page.getByRole('button', { name: 'Held' }).waitFor();
    const log = await answer('captain knees forward');
    expect(findings(log)).toMatchObject([
      { faults: ['knees-forward'], source: { by: 'voice', text: 'captain knees forward' } },
    ]);
    await stop();
    const after = await untilStored(page, (log) => log.some(({ type }) => type === 'halted'), 10);
    expect(after).toContainEqual(expect.objectContaining({ type: 'started', callWord: 'captain' }));
    expect(opened.complaints).toEqual([]);
  });
});

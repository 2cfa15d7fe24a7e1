import type { Page } from 'playwright-core';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Entry } from '../../../src/domain/log';
import { COACH_VOICE } from '../../../src/voice/node';
import { addOwnWords, formAtGate } from '../gate';
import { speak } from '../handMicrophone';
import { heardPage, holdEar } from '../heard';
import { begin, storedLog, storedRows, toGate, untilStored } from '../opening';

/** One coach at one page: what is chosen at the gate stays for the next session. */
const heard = heardPage();
let page: Page;
beforeEach(() => {
  page = heard().page;
});

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

/** From there back to the gate. */
async function endStopped(): Promise<void> {
  await page.keyboard.press('y');
  await page.getByRole('button', { name: 'Back to the start' }).click();
  await toGate(page);
}

/** To the first question of the session that runs: by keys past the welcome and the work. */
async function toQuestion(): Promise<Entry[]> {
  await page.locator('main.run').getByRole('meter').waitFor();
  // Before the first word there is nothing to leave out.
  await page.locator('main.run .cue').filter({ hasText: /\w/ }).waitFor();
  await page.keyboard.press('n');
  await page.getByRole('heading', { name: 'Hinge with the bar' }).waitFor();
  await page.keyboard.press('d');
  await page.getByRole('button', { name: 'Held' }).waitFor();
  return untilStored(page, (log) => log.some(({ type }) => type === 'asked'), 20);
}

describe('what a coach chose at the gate counts in the session', () => {
  it('a word that no dictionary has, added for "limited", is heard and taken', async () => {
    await addOwnWords(page, 'limited', 'kerfuffled');
    await page.getByText('“kerfuffled” for “limited”', { exact: true }).waitFor();
    await begin(page, 'voice');
    await toQuestion();
    const log = await answer('kerfuffled');
    expect(findings(log)).toMatchObject([
      { result: 'short', faults: [], source: { by: 'voice', text: 'kerfuffled' } },
    ]);
    await stop();
    await endStopped();
  });

  it('with a call word a reply without it is not taken, one after it is, and "stop" always halts', async () => {
    const form = await formAtGate(page, 'Call word');
    await form.getByLabel('Call word').fill('Captain');
    await form.getByRole('button', { name: 'Use it' }).click();
    await form.getByText('Replies count only after “captain”').waitFor();
    await begin(page, 'voice');
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
    await endStopped();
    await (
      await formAtGate(page, 'Call word')
    )
      .getByRole('button', { name: 'Call word off' })
      .click();
    expect(heard().complaints).toEqual([]);
  });
});

async function addAthlete(name: string): Promise<void> {
  await page.getByRole('button', { name: 'Add an athlete' }).click();
  await page.getByRole('textbox', { name: 'Name' }).fill(name);
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name, level: 1 }).waitFor();
  await page.getByRole('button', { name: 'Athletes' }).click();
}

const nextIs = (name: string) =>
  page.getByRole('heading', { name: `Next: ${name}` }).waitFor({ timeout: 20_000 });

/** Ends the session that runs, by keys. */
async function endSession(): Promise<void> {
  await untilStored(page, (log) => log.some(({ type }) => type === 'decision'), 20);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Yes, end it' }).waitFor();
  await page.keyboard.press('y');
}

it('two athletes: next person by voice, a killed tab, back at the open session, and what came of it', async () => {
  const earlier = new Set((await storedRows(page)).map(({ session }) => session));
  await page.getByRole('button', { name: 'Athletes' }).click();
  await addAthlete('Quib Marn');
  await addAthlete('Vennel Ashgrove');
  await page.getByRole('button', { name: 'Squad day' }).click();
  await page.getByRole('button', { name: /Tick everybody/ }).click();
  await page.locator('input[value="hinge"]').check();
  await page.getByRole('button', { name: 'begin by voice' }).click();

  await nextIs('Quib Marn');
  await page.keyboard.press('PageDown');
  await page.getByText('For Quib Marn · 1 left after that').waitFor();
  const [first] = await toQuestion();
  await speak(page, 'next person', { silenceSeconds: 1 });
  await nextIs('Vennel Ashgrove');
  expect((await storedLog(page)).some(({ type }) => type === 'ended')).toBe(false);

  await holdEar(heard());
  await page.reload();
  await page.getByRole('button', { name: 'Go on with the squad day: 2 left' }).click();
  await nextIs('Vennel Ashgrove');
  await page.keyboard.press('PageDown');
  await page.getByText('For Vennel Ashgrove · 1 left after that').waitFor();
  await endSession();

  await nextIs('Quib Marn');
  await page.keyboard.press('PageDown');
  await page.getByText('For Quib Marn · the last one').waitFor();
  // The very question that was left open.
  await page.getByRole('heading', { name: 'Hinge with the bar' }).waitFor();
  await page.getByRole('button', { name: 'Held' }).waitFor({ timeout: 20_000 });
  await endSession();

  await page.getByRole('heading', { name: 'The squad day is over' }).waitFor({ timeout: 20_000 });
  await page.getByText('2 of 2 athletes seen.').waitFor();
  const sessions = new Set((await storedRows(page)).map(({ session }) => session));
  expect(sessions.size - earlier.size).toBe(2);
  expect(sessions).toContain(first?.id.split(':')[0]);
  await page.getByRole('button', { name: 'To the page of Quib Marn' }).click();
  await page.getByRole('region', { name: 'Visits' }).getByRole('button').waitFor();
  expect(heard().complaints).toEqual([]);
}, 120_000);

import { afterEach, describe, expect, it } from 'vitest';
import type { Entry } from '../../src/domain/log';
import { bookOf } from '../../src/cli/verb';
import { opensAtSeconds } from './rehearsed';
import { begin, open, untilStored, watchSound, type Opened } from './opening';
import { spokenFile } from './speaking';

/** The first cue of the next set: its one fix. */
const NEXT_CUE =
  bookOf().drills['bell-hinge']?.fixes.find(({ fault }) => fault === 'knees-forward')?.cue ?? '';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

const findings = (log: Entry[]) => log.filter((entry) => entry.type === 'finding');
const decisions = (log: Entry[]) => log.filter((entry) => entry.type === 'decision');
const asked = (log: Entry[]) => log.filter((entry) => entry.type === 'asked');

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
  it('by a microphone, with the network gone: heard, graded, decided, and the next drill cued', async () => {
    // A page is some seconds behind a rehearsal; each question is asked again 8 s after it opened.
    const [check = 0] = opensAtSeconds(['knees forward']);
    const microphone = await spokenFile('hinge', [
      { atSeconds: check + 4, text: 'knees forward' },
      { atSeconds: check + 30, text: 'knees forward' },
    ]);
    opened = await open({ microphone });
    const { page, context, complaints } = opened;
    await page.getByText('The recogniser is loading').waitFor({ state: 'hidden' });
    await begin(page, 'voice');
    const sound = await watchSound(page);
    await untilStored(page, (log) => asked(log).length > 0, 90);
    await expect.poll(() => sound.loudest(), { timeout: 10_000 }).toBeGreaterThan(0.1);
    await context.setOffline(true);
    await untilStored(page, (log) => findings(log).length > 0, 20);
    await sound.loudest();
    await page.getByRole('heading', { name: 'Bell hinge' }).waitFor();
    // Its work is over at once, and its question opens; over its own voice "done" would not count.
    await page.keyboard.press('d');
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

describe('"stop" into the microphone', () => {
  it('halts the cue, asks whether to end, and "yes" ends with the record kept', async () => {
    const microphone = await spokenFile('stop', [
      { atSeconds: 9, text: 'stop' },
      { atSeconds: 15, text: 'yes' },
    ]);
    opened = await open({ microphone });
    const { page } = opened;
    await page.getByText('The recogniser is loading').waitFor({ state: 'hidden' });
    await begin(page, 'voice');
    await page.getByRole('heading', { name: 'Stopped' }).waitFor({ timeout: 20_000 });
    const log = await untilStored(page, (log) => log.at(-1)?.type === 'ended', 30);
    expect(log.map(({ type }) => type)).toEqual(expect.arrayContaining(['halted', 'end-answered']));
    expect(log.at(-1)).toMatchObject({ reason: 'stopped' });
    await page.getByRole('heading', { level: 1 }).waitFor();
  });
});

import { afterEach, describe, expect, it } from 'vitest';
import { begin, h1, open, toLastQuestion, type Opened } from './opening';
import { speakAtOnce } from './quickVoice';
import { faultsAtAll } from './standing';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

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
    await page.getByRole('button', { name: 'Check it from where you stand' }).click();
    await h1(page, 'The microphone');
    await page.getByRole('alert').filter({ hasText: 'not allowed' }).waitFor();
    await look('microphone check');
    await page.getByRole('button', { name: 'Back to the start' }).click();
    await page.getByRole('button', { name: 'Athletes' }).click();
    await look('people');
    await page.getByRole('button', { name: 'Show an invented club' }).click();
    await page.getByText('12 athletes', { exact: true }).waitFor();
    await look('people of the club');
    for (const [button, title] of [
      ['Squad day', 'Squad day'],
      ['Import a list', 'Import a list'],
      ['The record', 'The record'],
      ['Warm up a group', 'Group warm-up'],
    ] as const) {
      await page.getByRole('button', { name: button }).click();
      await h1(page, title);
      await look(title);
      await page.getByRole('button', { name: 'Athletes' }).click();
    }
    await page.getByRole('button', { name: 'Squad day' }).click();
    await page.getByRole('button', { name: 'Tick everybody (12)' }).click();
    await page.getByRole('button', { name: /begin by touch/ }).click();
    await h1(page, /^Next: /);
    await page.locator('main.between .cue').filter({ hasText: /\w/ }).waitFor();
    await look('between two');
    await page.getByRole('button', { name: 'Stop: end the squad day' }).click();
    await page.getByRole('button', { name: 'Yes, end it' }).click();
    await h1(page, 'The squad day is over');
    await look('what came of the squad day');
    await page.getByRole('button', { name: 'Done: to the athletes' }).click();
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
    opened = await open({ permission: 'denied', before: speakAtOnce });
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
    await page.getByRole('button', { name: 'Back to the start' }).click();
    await page.getByRole('button', { name: 'Warm up a group' }).click();
    await page.getByRole('button', { name: /begin by touch/ }).click();
    await page.getByText('1 of 9').waitFor({ timeout: 30_000 });
    await look('a group is led');
    expect(faults).toEqual({});
  }, 120_000);
});

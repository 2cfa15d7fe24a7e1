import { afterEach, expect, it } from 'vitest';
import { begin, h1, open, storedLog, toLastQuestion, untilStored, type Opened } from './opening';
import { speakAtOnce } from './quickVoice';

/** Its first line waits for a voice. */
const SLOW = { timeout: 60_000 };

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

it('a second tab follows the session, goes on with it, and is told when that tab is killed', async () => {
  opened = await open({ before: speakAtOnce, isOnDisk: true });
  const { page: first, context } = opened;
  await begin(first, 'touch');
  await toLastQuestion(first);

  const second = await context.newPage();
  await second.route('**/ear/**', () => undefined);
  await second.goto(first.url());
  const card = second.getByRole('region', { name: 'A session runs in another tab' });
  await card.getByText(/^Hinge with the bar/).waitFor();

  // Nothing begins beside it.
  await second.getByRole('button', { name: 'Begin without a name' }).click();
  await second.getByRole('button', { name: /: begin by touch/ }).click();
  await card.getByRole('alert').filter({ hasText: 'runs in another tab' }).waitFor();

  const before = await storedLog(second);
  await card.getByRole('button', { name: 'Go on here' }).click();
  await h1(second, 'Hinge with the bar');
  await second.getByRole('button', { name: 'Held', exact: true }).waitFor(SLOW);
  await first.getByRole('region', { name: 'A session runs in another tab' }).waitFor();
  expect((await storedLog(second)).slice(0, before.length)).toEqual(before);

  await second.close();
  await first.getByRole('alert').filter({ hasText: 'Its tab was closed' }).waitFor();
  await first.getByRole('button', { name: /^Go on: Hinge/ }).click();
  await first.getByRole('button', { name: 'Held', exact: true }).click(SLOW);
  const log = await untilStored(first, (entries) => entries.at(-1)?.type === 'ended', 60);
  const ids = log.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
});

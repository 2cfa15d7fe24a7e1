import { textOf } from '../../src/domain/script';
import { afterEach, describe, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { begin, open, storedLog, toQuestion, untilStored, type Opened } from './opening';
import { linesTake, speakAtOnce } from './quickVoice';

/** Said aloud, and shown as its caption. */
const DEAF = bookOf().lines['say.deaf'] ?? '';
const SET_UP = textOf(bookOf().checks['hinge-unloaded']?.setUp[1] ?? '');

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

/** In the page: a browser whose disk is full. */
function fullDisk() {
  IDBObjectStore.prototype.add = () => {
    throw new DOMException('full', 'QuotaExceededError');
  };
}

describe('what fails is said, and the session runs on with what is left', () => {
  it('the microphone is refused: hands lead', async () => {
    opened = await open({ permission: 'denied', before: speakAtOnce });
    const { page } = opened;
    await linesTake(page, 1000);
    await begin(page, 'voice');
    await page
      .getByText(/microphone is not allowed|no microphone/i)
      .first()
      .waitFor();
    await page.getByText(DEAF).first().waitFor();
    await toQuestion(opened);
    await page.getByRole('button', { name: 'Held' }).click();
    await untilStored(page, (log) => log.some(({ type }) => type === 'finding'), 10);
  });

  it('no voice can speak: captions keep the pace', async () => {
    opened = await open({ blocked: /flite\.wasm/ });
    const { page } = opened;
    await begin(page, 'touch');
    await page
      .getByText(/no voice/i)
      .first()
      .waitFor({ timeout: 20_000 });
    await page.getByText(SET_UP).waitFor({ timeout: 30_000 });
    await toQuestion(opened);
  });

  it('the recogniser does not arrive: touch and keys do everything', async () => {
    opened = await open({ isHeard: true, blocked: /vad\.onnx/, before: speakAtOnce });
    const { page } = opened;
    await page.getByText(/ear could not start|recogniser could not load/i).waitFor();
    await begin(page, 'touch');
    await toQuestion(opened);
    await page.getByRole('button', { name: 'Held' }).click();
    await untilStored(page, (log) => log.some(({ type }) => type === 'finding'), 10);
  });

  it('the record cannot be written: it is said, and kept', async () => {
    opened = await open({
      before: [fullDisk, speakAtOnce],
    });
    const { page } = opened;
    await begin(page, 'touch');
    await page
      .getByText(/room|full|space|storage/i)
      .first()
      .waitFor({ timeout: 20_000 });
    await toQuestion(opened);
    await page.getByRole('button', { name: 'Held' }).click();
    await page.getByRole('heading', { name: /Hinge with the bar/i }).waitFor({ timeout: 20_000 });
    expect(await storedLog(page)).toEqual([]);
  });

  it('a voice check without a microphone says so at once and offers to try again', async () => {
    opened = await open({ isHeard: true, permission: 'denied' });
    const { page } = opened;
    await page.getByRole('button', { name: 'Check my voice' }).click();
    await page.getByRole('alert').filter({ hasText: 'The microphone is not allowed' }).waitFor();
    await page.getByRole('button', { name: 'Try the microphone again' }).waitFor();
    await page.getByRole('button', { name: 'Back to the start' }).click();
    await page.getByRole('button', { name: 'Begin by voice' }).waitFor();
  });
});

import { afterEach, describe, it } from 'vitest';
import { begin, open, type Opened } from '../opening';
import { spokenFile } from '../speaking';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

describe('the better recogniser', () => {
  it('does not arrive: the small one hears, and it is said', async () => {
    const microphone = await spokenFile('small', [
      { atSeconds: 9, text: 'stop' },
      { atSeconds: 15, text: 'stop' },
    ]);
    opened = await open({ isHeard: true, blocked: /encoder\.onnx/, microphone });
    const { page } = opened;
    await page.getByText(/better recogniser did not arrive/).waitFor();
    await begin(page, 'voice');
    await page.getByRole('heading', { name: 'Stopped' }).waitFor({ timeout: 30_000 });
    await page.getByText(/better recogniser did not arrive/).waitFor();
  });

  it('arrives damaged, twice: the small one hears, and it is said', async () => {
    opened = await open({ isHeard: true, damaged: /encoder\.onnx/ });
    await opened.page.getByText(/better recogniser arrived damaged/).waitFor();
  });
});

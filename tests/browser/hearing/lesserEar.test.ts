import { afterEach, describe, expect, it } from 'vitest';
import { begin, open, untilStored, type Opened } from '../opening';
import { spokenFile } from '../speaking';

let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

describe('the better recogniser', () => {
  it('does not arrive: it is said; the small one hears "stop" in mid-cue, and "yes" ends with the record kept', async () => {
    // Said again where the page comes later than usual; once it is over nobody listens.
    const microphone = await spokenFile('small', [
      { atSeconds: 9, text: 'stop' },
      { atSeconds: 15, text: 'yes' },
      { atSeconds: 21, text: 'stop' },
      { atSeconds: 27, text: 'yes' },
    ]);
    opened = await open({ isHeard: true, blocked: /encoder\.onnx/, microphone });
    const { page } = opened;
    await page.getByText(/better recogniser did not arrive/).waitFor();
    await begin(page, 'voice');
    await page.getByRole('heading', { name: 'Stopped' }).waitFor({ timeout: 30_000 });
    await page.getByText(/better recogniser did not arrive/).waitFor();
    const log = await untilStored(page, (log) => log.at(-1)?.type === 'ended', 40);
    expect(log.map(({ type }) => type)).toEqual(expect.arrayContaining(['halted', 'end-answered']));
    expect(log.at(-1)).toMatchObject({ reason: 'stopped' });
  });

  it('arrives damaged, twice: the small one hears, and it is said', async () => {
    opened = await open({ isHeard: true, damaged: /encoder\.onnx/ });
    await opened.page.getByText(/better recogniser arrived damaged/).waitFor();
  });
});

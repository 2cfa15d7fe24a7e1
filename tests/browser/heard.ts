import { afterAll, afterEach, beforeEach } from 'vitest';
import { handMicrophone } from './handMicrophone';
import { open, type Opened } from './opening';

/**
 * One page whose ear hears, better reader and all, with a microphone in the test's hand: for all
 * tests of a file, which leave it at the gate, since an ear takes seconds to come. After a test that
 * failed it is opened anew.
 */
export function heardPage(): () => Opened {
  let opened: Opened | undefined;
  const close = async () => {
    await opened?.close();
    opened = undefined;
  };
  beforeEach(async () => {
    if (opened !== undefined) return;
    opened = await open({ isHeard: true, before: handMicrophone });
    const better = opened.page.getByText('the better one is on its way');
    await better.waitFor();
    await better.waitFor({ state: 'hidden' });
  });
  afterEach(({ task }) => (task.result?.state === 'fail' ? close() : undefined));
  afterAll(close);
  return () => {
    if (opened === undefined) throw new Error('The page is opened before each test.');
    return opened;
  };
}

/** From its next load on its ear is on its way for ever, which spares it seconds of reckoning. */
export const holdEar = ({ page }: Opened): Promise<unknown> =>
  page.route('**/ear/**', () => undefined);

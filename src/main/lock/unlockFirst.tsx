/** What is shown before all else where the record is locked; it comes for that alone. */
import { StrictMode } from 'react';
import type { Root } from 'react-dom/client';
import { LockScreen } from '../../screens/lock/LockScreen';
import { saidBy } from '../people/saidBy';
import type { PageLock } from './pageLock';

const NOT_OPENED =
  'The record could not be opened. Nothing was lost; load the page again, and try it once more.';

/** Resolves once the vault has the key, or where the record is not locked after all. */
export async function unlockFirst(root: Root, page: PageLock): Promise<void> {
  const state = await page
    .lock()
    .then((lock) => lock.state())
    .catch(() => null);
  if (state === 'off') return page.rememberLocked(false);
  await new Promise<void>((opened) => {
    const open = async (passphrase: string) => {
      try {
        await (await page.lock()).open(passphrase);
        await page.texts.open();
      } catch (error) {
        return saidBy(error, NOT_OPENED);
      }
      opened();
      return null;
    };
    root.render(
      <StrictMode>
        <LockScreen open={open} />
      </StrictMode>,
    );
  });
}

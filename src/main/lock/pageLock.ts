import { loadedOnce } from '../../records/loadedOnce';
import type { RecordLock } from '../../records/dexieLock';
import { createVault, type Vault } from '../../records/vault';
import { LOCK_MINUTES, type LockMinutes } from '../../screens/lock/state';
import { keptText } from '../keptText';
import { createPersonalTexts, type PersonalTexts } from './personalTexts';

/** Other windows of the page are told by it, too. */
export const LOCKED_KEY = 'sayso-record-locked';

/** What a page has of the lock of the record, before anything else of it is there. */
export interface PageLock {
  vault: Vault;
  texts: PersonalTexts;
  /** Comes when it is asked for. */
  lock: () => Promise<RecordLock>;
  /** As this device remembers it, so that nothing is shown first; the record itself decides. */
  isLocked(): boolean;
  rememberLocked(is: boolean): void;
  minutes(): LockMinutes;
  keepMinutes(minutes: LockMinutes): void;
}

export function createPageLock(storage: () => Storage = () => localStorage): PageLock {
  const vault = createVault();
  const locked = keptText(storage, LOCKED_KEY);
  const after = keptText(storage, 'sayso-lock-after');
  return {
    vault,
    texts: createPersonalTexts(storage, vault),
    lock: loadedOnce(async () =>
      (await import('../../records/dexieLock')).createDexieLock('sayso', {}, vault),
    ),
    isLocked: () => locked.load() === 'yes',
    rememberLocked: (is) => locked.save(is ? 'yes' : ''),
    minutes: () => LOCK_MINUTES.find((each) => String(each) === after.load()) ?? 15,
    keepMinutes: (minutes) => after.save(String(minutes)),
  };
}

import type { Clock } from '../../ports';
import type { LockHands, LockState } from '../../screens/lock/state';
import type { SeatStore } from '../../screens/seat';
import { passphraseProblem } from '../../records/passphrase';
import { saidBy } from '../people/saidBy';
import { lockWhenIdle } from './idle';
import { LOCKED_KEY, type PageLock } from './pageLock';

/** The place at the seat of the record's lock. */
export interface LockPlace extends LockHands {
  /** Somebody spoke. */
  touched(): void;
}

/** Before anything of the lock is known. */
export const lockStateOf = (page: PageLock): LockState => ({
  ...{ isOn: page.vault.open !== null, afterMinutes: page.minutes(), left: null, trouble: null },
});

const NOT_DONE = 'That could not be done. Nothing was lost; load the page again, and try it again.';
const NOT_STORED =
  'Something of a session is on this page alone and not stored yet, so it is not locked. Make room on the device, or save the whole record first.';

export function createLockPlace({
  page,
  store,
  clock,
  isBusy,
  isHolding,
  reload = () => location.reload(),
}: {
  page: PageLock;
  store: SeatStore;
  clock: Clock;
  /** A session, a warm-up or a squad day runs. */
  isBusy: () => boolean;
  /** Something is on this page alone. */
  isHolding: () => boolean;
  reload?: () => void;
}): LockPlace {
  const patch = (change: Partial<LockState>) =>
    store.patch({ lock: { ...store.state().lock, ...change } });
  /** Another window locked the record, or took the lock off: this page is of no use as it is. */
  let isOutdated = false;
  const isFree = () => !isBusy() && !isHolding();

  async function doing(work: () => Promise<void>): Promise<string | null> {
    try {
      await work();
      return null;
    } catch (error) {
      return saidBy(error, NOT_DONE);
    }
  }

  /** Goes on where it was broken off; what is not done is done when the page is opened next. */
  async function settle() {
    patch({ trouble: null });
    const trouble = await doing(async () => {
      const lock = await page.lock();
      await page.texts.settle((await lock.state()) === 'on');
      await lock.settle((left) => patch({ left: left === 0 ? null : left }));
      if ((await lock.state()) !== 'off') return;
      page.vault.open = null;
      page.rememberLocked(false);
      patch({ isOn: false });
    });
    patch({ left: null, trouble });
  }

  /** The device may have forgotten that the record is locked. */
  async function lookWhether() {
    const state = await (await page.lock()).state();
    if (state === 'off' || page.vault.open !== null) return;
    page.rememberLocked(true);
    isOutdated = true;
  }

  const idle = lockWhenIdle({
    clock,
    minutes: () => (isOutdated ? 0 : store.state().lock.isOn ? page.minutes() : null),
    isBusy: () => !isFree(),
    lock: reload,
  });
  window.addEventListener('storage', ({ key }) => {
    if (key === LOCKED_KEY) isOutdated = true;
  });
  if (page.vault.open === null) lookWhether().catch(() => undefined);
  else void settle();

  return {
    touched: idle.touched,
    async turnOn(passphrase) {
      const problem = passphraseProblem(passphrase);
      if (problem !== null) return problem;
      // Before it is so: a page that is closed in between asks in vain, and shows nothing.
      page.rememberLocked(true);
      const trouble = await doing(async () => (await page.lock()).turnOn(passphrase));
      if (trouble === null) {
        patch({ isOn: true });
        void settle();
        return null;
      }
      // Another window may have locked it first.
      await lookWhether().catch(() => undefined);
      if (!isOutdated) page.rememberLocked(false);
      return trouble;
    },
    change: async (from, to) =>
      passphraseProblem(to) ?? doing(async () => (await page.lock()).change(from, to)),
    async turnOff(passphrase) {
      const trouble = await doing(async () => (await page.lock()).turnOff(passphrase));
      if (trouble === null) void settle();
      return trouble;
    },
    now() {
      if (isHolding()) return NOT_STORED;
      reload();
      return null;
    },
    after(minutes) {
      page.keepMinutes(minutes);
      patch({ afterMinutes: minutes });
    },
  };
}

// @vitest-environment jsdom
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { lockWhenIdle } from '../../src/main/lock/idle';
import { createLockPlace, lockStateOf } from '../../src/main/lock/lockPlace';
import { createPageLock, LOCKED_KEY, type PageLock } from '../../src/main/lock/pageLock';
import { createDayShelf, type KeptDay } from '../../src/main/squadDay/dayShelf';
import { createSeatStore } from '../../src/screens/seat';
import { device } from '../records/device';
import { STATE } from '../screens/fakeSeat';

const PASSPHRASE = 'kettle under violet ladder';
const MINUTE = 60_000;

beforeEach(() => localStorage.clear());
const stops: (() => void)[] = [];
afterEach(() => {
  for (const stop of stops.splice(0)) stop();
});

describe('a page that is left alone', () => {
  function idle(minutes: number | null = 15) {
    const clock = createVirtualClock(0);
    const world = { isBusy: false, minutes };
    const lock = vi.fn();
    const watch = lockWhenIdle({
      ...{ clock, lock, minutes: () => world.minutes, isBusy: () => world.isBusy },
    });
    stops.push(watch.stop);
    return { world, lock, watch, pass: (minutes: number) => clock.advance(minutes * MINUTE) };
  }

  it('locks after the minutes that were chosen, and not before', () => {
    const { lock, pass } = idle();
    pass(14.9);
    expect(lock).not.toHaveBeenCalled();
    pass(0.4);
    expect(lock).toHaveBeenCalled();
  });

  it.each([
    ['a touch', () => window.dispatchEvent(new Event('pointerdown'))],
    ['a key', () => window.dispatchEvent(new KeyboardEvent('keydown', { key: 'a' }))],
  ])('does not after %s', (_, touch) => {
    const { lock, pass } = idle();
    pass(14);
    touch();
    pass(14);
    expect(lock).not.toHaveBeenCalled();
  });

  it('does not after words, nor where nothing is locked', () => {
    const { lock, pass, watch, world } = idle();
    pass(14);
    watch.touched();
    pass(14);
    world.minutes = null;
    pass(600);
    expect(lock).not.toHaveBeenCalled();
  });

  it('never does while something runs, and counts anew from its end', () => {
    const { lock, pass, world } = idle(5);
    world.isBusy = true;
    pass(90);
    world.isBusy = false;
    pass(4.7);
    expect(lock).not.toHaveBeenCalled();
    pass(0.6);
    expect(lock).toHaveBeenCalled();
  });

  it('that slept is locked by the touch that wakes it, before that counts', () => {
    const lock = vi.fn();
    let now = 0;
    const clock = { now: () => now, setTimeout: () => 0, clearTimeout: () => undefined };
    stops.push(lockWhenIdle({ clock, lock, minutes: () => 15, isBusy: () => false }).stop);
    now = 16 * MINUTE;
    window.dispatchEvent(new Event('pointerdown'));
    expect(lock).toHaveBeenCalledTimes(1);
  });
});

describe('the lock at the seat', () => {
  /** A page whose database is `of`; its own key, its own memory of the storage. */
  function seat(of = device(new IDBFactory()), world = { isBusy: false, isHolding: false }) {
    const page: PageLock = { ...createPageLock(), vault: of.vault, lock: async () => of.lock };
    const store = createSeatStore({ ...STATE, lock: lockStateOf(page) });
    const reload = vi.fn();
    const clock = createVirtualClock(0);
    const lock = createLockPlace({
      ...{ page, store, clock, reload },
      isBusy: () => world.isBusy,
      isHolding: () => world.isHolding,
    });
    return { of, page, store, clock, lock, reload, world, state: () => store.state().lock };
  }
  const locked = async () => {
    const here = seat();
    expect(await here.lock.turnOn(PASSPHRASE)).toBeNull();
    await vi.waitFor(() => expect(here.state().left).toBeNull());
    return here;
  };

  it('is remembered, so that the page asks before it shows anything, and forgotten once it is off', async () => {
    const { lock, page, state, of } = await locked();
    expect(state().isOn).toBe(true);
    expect(createPageLock().isLocked()).toBe(true);
    expect(await lock.turnOff(PASSPHRASE)).toBeNull();
    await vi.waitFor(() => expect(state().isOn).toBe(false));
    expect(createPageLock().isLocked()).toBe(false);
    expect(page.vault.open).toBeNull();
    expect(await of.lock.state()).toBe('off');
  });

  it('refuses a passphrase that is short, and a wrong one, with what to do', async () => {
    const here = seat();
    expect(await here.lock.turnOn('short')).toMatch(/at least 12 letters/);
    expect(here.page.isLocked()).toBe(false);
    const { lock, state } = await locked();
    expect(await lock.change('another kettle here', 'seven quiet boats')).toMatch(/does not open/);
    expect(await lock.change(PASSPHRASE, 'short')).toMatch(/at least 12 letters/);
    expect(await lock.turnOff('another kettle here')).toMatch(/Nothing was lost/);
    expect(state().isOn).toBe(true);
  });

  it('locks now, but not while something is on the page alone', async () => {
    const { lock, reload, world } = await locked();
    world.isHolding = true;
    expect(lock.now()).toMatch(/not stored yet, so it is not locked/);
    expect(reload).not.toHaveBeenCalled();
    world.isHolding = false;
    expect(lock.now()).toBeNull();
    expect(reload).toHaveBeenCalledTimes(1);
  });

  it('waits for the minutes that were chosen, which this device keeps', async () => {
    const { lock, clock, reload } = await locked();
    lock.after(5);
    clock.advance(4 * MINUTE);
    expect(reload).not.toHaveBeenCalled();
    clock.advance(2 * MINUTE);
    expect(reload).toHaveBeenCalled();
    expect(createPageLock().minutes()).toBe(5);
  });

  it('of another window closes this one, once nothing runs in it', async () => {
    const here = seat(undefined, { isBusy: true, isHolding: false });
    window.dispatchEvent(new StorageEvent('storage', { key: LOCKED_KEY }));
    here.clock.advance(MINUTE);
    expect(here.reload).not.toHaveBeenCalled();
    here.world.isBusy = false;
    here.clock.advance(MINUTE);
    expect(here.reload).toHaveBeenCalled();
  });

  it('is found where the device has forgotten it', async () => {
    const { of } = await locked();
    localStorage.clear();
    const again = seat(device(of.indexedDB));
    await vi.waitFor(() => expect(again.page.isLocked()).toBe(true));
    again.clock.advance(MINUTE);
    expect(again.reload).toHaveBeenCalled();
  });
});

describe('a squad day of a locked record', () => {
  const DAY: KeptDay = {
    language: 'en',
    choice: { routine: 'hinge', way: 'hands-on', listen: 'hands', missing: [] },
    day: { now: null, waiting: [{ person: 'p1', session: null }], later: [], seen: [] },
    signs: [],
  };
  const raw = () => localStorage.getItem('sayso-squad-day') ?? '';

  it('lies sealed in the storage of the page, and goes on with the passphrase', async () => {
    const of = device(new IDBFactory());
    const { texts } = createPageLock();
    createDayShelf(() => texts).save(DAY);
    expect(raw()).toContain('"person":"p1"');
    await of.lock.turnOn(PASSPHRASE);
    const inPage = createPageLock();
    inPage.vault.open = of.vault.open;
    await inPage.texts.settle(true);
    expect(raw()).toMatch(/^sealed-1:/);
    expect(raw()).not.toContain('person');

    const without = createPageLock();
    expect(createDayShelf(() => without.texts).load()).toBeNull();
    const next = createPageLock();
    next.vault.open = of.vault.open;
    await next.texts.open();
    expect(createDayShelf(() => next.texts).load()).toEqual(DAY);

    await next.texts.settle(false);
    expect(raw()).toContain('"person":"p1"');
  });
});

import { afterEach, expect, it, vi } from 'vitest';
import { stayAwake } from '../../src/main/wakefulness';

afterEach(() => vi.unstubAllGlobals());

/** A page whose screen can be locked awake; the system takes the lock away when it is hidden. */
function page({ refuses = false } = {}) {
  const listeners = new Set<() => void>();
  let held = 0;
  const document = {
    visibilityState: 'visible',
    addEventListener: (_: string, run: () => void) => listeners.add(run),
    removeEventListener: (_: string, run: () => void) => listeners.delete(run),
  };
  const request = async () => {
    if (refuses) throw new Error('NotAllowedError');
    held += 1;
    let isHeld = true;
    return {
      release: async () => {
        if (isHeld) held -= 1;
        isHeld = false;
      },
    };
  };
  vi.stubGlobal('document', document);
  vi.stubGlobal('navigator', { wakeLock: { request } });
  return {
    held: () => held,
    turn(visibilityState: 'visible' | 'hidden') {
      document.visibilityState = visibilityState;
      if (visibilityState === 'hidden') held = 0;
      for (const run of [...listeners]) run();
    },
    allow: () => {
      refuses = false;
    },
  };
}

it('the screen stays awake, again after the page was away, and no longer than the session', async () => {
  const { held, turn } = page();
  const sleepAgain = stayAwake();
  await vi.waitFor(() => expect(held()).toBe(1));
  turn('hidden');
  expect(held()).toBe(0);
  turn('visible');
  await vi.waitFor(() => expect(held()).toBe(1));
  sleepAgain();
  await vi.waitFor(() => expect(held()).toBe(0));
  turn('visible');
  await Promise.resolve();
  expect(held()).toBe(0);
});

it('refused on a low battery, it is asked for again when the page comes back', async () => {
  const { held, turn, allow } = page({ refuses: true });
  const sleepAgain = stayAwake();
  await Promise.resolve();
  expect(held()).toBe(0);
  allow();
  turn('visible');
  await vi.waitFor(() => expect(held()).toBe(1));
  sleepAgain();
});

it('a session that ends while the lock is being asked for leaves none behind', async () => {
  const { held } = page();
  stayAwake()();
  await vi.waitFor(() => expect(held()).toBe(0));
});

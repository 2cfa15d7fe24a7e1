import { describe, expect, it } from 'vitest';
import { createHands } from '../../src/ear/hands';
import { createKeysPlace } from '../../src/main/keysPlace';
import { createKeysShelf } from '../../src/main/keysShelf';
import { createSeatStore } from '../../src/screens/seat';
import { STATE } from '../screens/fakeSeat';

function opened(storage: () => Storage) {
  const store = createSeatStore(STATE);
  const hands = createHands();
  const commands: (string | null)[] = [];
  hands.listen((hearing) => hearing.type === 'reply' && commands.push(hearing.reply.command));
  const handlers = new Map<string, unknown>();
  const place = createKeysPlace({
    parts: { hands },
    store,
    shelf: createKeysShelf(storage),
    headset: { setActionHandler: (action, run) => void handlers.set(action, run) },
  });
  return {
    ...{ place, store, handlers },
    press: (key: string) => {
      hands.key({ key });
      return commands.pop() ?? null;
    },
    keys: () => store.state().keys,
  };
}

function memory(text?: string) {
  const kept = new Map(text === undefined ? [] : [['sayso-keys', text]]);
  return () =>
    ({
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
    }) as unknown as Storage;
}

describe('own keys at the seat', () => {
  it('count at once, and at the next opening of the page', () => {
    const storage = memory();
    const { place, press, keys } = opened(storage);
    expect(press('F5')).toBeNull();
    place.set('F5', 'pause');
    expect(press('F5')).toBe('pause');
    expect(keys()).toEqual({ own: [{ key: 'F5', deed: 'pause' }], trouble: null });
    const next = opened(storage);
    expect(next.press('F5')).toBe('pause');
    expect(next.keys()).toEqual(keys());
    next.place.reset();
    expect(next.press('F5')).toBeNull();
    expect(opened(storage).keys()).toEqual({ own: [], trouble: null });
  });

  it('that were damaged are as they come, and it is said until they are set again', () => {
    const storage = memory('[{"key":"Escape","deed":null}');
    const { keys, press, place } = opened(storage);
    expect(keys()).toEqual({ own: [], trouble: 'damaged' });
    expect(press('p')).toBe('pause');
    place.reset();
    expect(keys().trouble).toBeNull();
    expect(opened(storage).keys().trouble).toBeNull();
  });

  it.each([
    [
      'keeps nothing',
      () => {
        throw new DOMException('no', 'SecurityError');
      },
    ],
    [
      'is full',
      () =>
        ({
          getItem: () => null,
          setItem: () => {
            throw new DOMException('full', 'QuotaExceededError');
          },
        }) as unknown as Storage,
    ],
  ])('hold until the page is closed where the browser %s, and it is said', (_, storage) => {
    const { place, press, keys } = opened(storage);
    expect(keys().trouble).toBeNull();
    place.set('F5', 'pause');
    expect(press('F5')).toBe('pause');
    expect(keys().trouble).toBe('refused');
  });

  it('are told of a headset while one is waited for, and not any longer', () => {
    const { place, handlers } = opened(memory());
    const told: string[] = [];
    const cancel = place.hearHeadset((key) => told.push(key));
    (handlers.get('nexttrack') as () => void)();
    (handlers.get('play') as () => void)();
    expect(told).toEqual(['MediaTrackNext', 'MediaPlayPause']);
    cancel();
    expect(handlers.get('nexttrack')).toBeNull();
  });

  it('have their screen, reached from the gate and left to it', () => {
    const { place, store } = opened(memory());
    place.show();
    expect(store.state().where).toBe('keys');
    place.leave();
    expect(store.state().where).toBe('gate');
  });
});

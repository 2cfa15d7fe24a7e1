import { expect, test } from 'vitest';
import { createMannerShelf } from '../../src/main/mannerShelf';
import { sharedManner, USUAL_MANNER } from '../../src/voice/manner';

function memory() {
  const kept = new Map<string, string>();
  return {
    kept,
    storage: {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => void kept.set(key, text),
    } as unknown as Storage,
  };
}

test('"slower" and "louder" hold at the next opening of the page; before them the usual does', () => {
  const { storage } = memory();
  const page = () => {
    const shelf = createMannerShelf(() => storage);
    return sharedManner(shelf.load(), shelf.save);
  };
  const first = page();
  expect(first.now()).toEqual(USUAL_MANNER);
  first.adjust('slower');
  first.adjust('slower');
  first.adjust('louder');
  const next = page();
  expect(next.now()).toEqual(first.now());
  expect(next.now().stretch).toBeGreaterThan(USUAL_MANNER.stretch);
  expect(next.now().volume).toBeGreaterThan(USUAL_MANNER.volume);
});

test('what cannot be read is the usual, and a change takes its place', () => {
  const { kept, storage } = memory();
  const shelf = createMannerShelf(() => storage);
  kept.set('sayso-manner', '{"volume":');
  expect(shelf.load()).toEqual(USUAL_MANNER);
  shelf.save({ volume: 1, stretch: 1 });
  expect(shelf.load()).toEqual({ volume: 1, stretch: 1 });
});

test('a browser that refuses its storage leaves the usual, and nothing breaks', () => {
  const shelf = createMannerShelf(() => {
    throw new DOMException('no', 'SecurityError');
  });
  expect(shelf.load()).toEqual(USUAL_MANNER);
  expect(() => shelf.save(USUAL_MANNER)).not.toThrow();
});

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

const page = (storage: Storage) => sharedManner(createMannerShelf(() => storage));

test('"slower" and "louder" hold at the next opening of the page; before them the usual does', () => {
  const { storage } = memory();
  const first = page(storage);
  expect(first.now()).toEqual(USUAL_MANNER);
  first.adjust('slower');
  first.adjust('slower');
  first.adjust('louder');
  const next = page(storage);
  expect(next.now()).toEqual(first.now());
  expect(next.now().stretch).toBeGreaterThan(USUAL_MANNER.stretch);
  expect(next.now().volume).toBeGreaterThan(USUAL_MANNER.volume);
});

test('each athlete is spoken to as they asked for, and a new one as nobody in particular', () => {
  const { storage } = memory();
  const manner = page(storage);
  manner.adjust('louder');
  const forAll = manner.now();
  manner.speakFor('hands-on', 'ada');
  expect(manner.now()).toEqual(forAll);
  manner.adjust('slower');
  const forAda = manner.now();
  manner.speakFor('hands-on', 'ben');
  expect(manner.now()).toEqual(forAll);
  manner.adjust('quieter');
  manner.adjust('quieter');
  const forBen = manner.now();

  const later = page(storage);
  const spokenTo = (athlete: string | null) => {
    later.speakFor('hands-on', athlete);
    return later.now();
  };
  expect([forAda, forBen]).not.toContainEqual(forAll);
  expect(['ada', 'ben', null, 'newcomer'].map(spokenTo)).toEqual([forAda, forBen, forAll, forAll]);
});

test('what cannot be read is the usual, and a change takes its place', () => {
  const { kept, storage } = memory();
  const shelf = createMannerShelf(() => storage);
  for (const damaged of ['{"nobody":', 'null', '{"nobody":{"volume":9,"stretch":1}}']) {
    kept.set('sayso-manner', damaged);
    expect(shelf.load(null), damaged).toEqual(USUAL_MANNER);
  }
  shelf.save(null, { volume: 1, stretch: 1 });
  expect(shelf.load(null)).toEqual({ volume: 1, stretch: 1 });
});

test('of very many athletes those adjusted to last are kept', () => {
  const { storage } = memory();
  const shelf = createMannerShelf(() => storage);
  for (let athlete = 0; athlete <= 200; athlete += 1) {
    shelf.save(`athlete-${String(athlete)}`, { volume: 1, stretch: 1 });
    if (athlete % 100 === 0) shelf.save('athlete-0', { volume: 0.16, stretch: 1 });
  }
  expect(shelf.load('athlete-0').volume).toBe(0.16);
  expect(shelf.load('athlete-1')).toEqual(USUAL_MANNER);
  expect(shelf.load('athlete-200').volume).toBe(1);
});

test('a browser that refuses its storage leaves the usual, and nothing breaks', () => {
  const shelf = createMannerShelf(() => {
    throw new DOMException('no', 'SecurityError');
  });
  expect(shelf.load(null)).toEqual(USUAL_MANNER);
  expect(() => shelf.save(null, USUAL_MANNER)).not.toThrow();
});

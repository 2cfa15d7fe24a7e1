import { expect, test } from 'vitest';
import { createWordsShelf, tellingWords } from '../../src/main/wordsShelf';
import { memoryRecords } from '../../src/records/memoryRecords';
import { openBench } from '../session/bench';

function memory() {
  const kept = new Map<string, string>();
  const storage = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => void kept.set(key, text),
  } as unknown as Storage;
  return { kept, storage, shelf: () => createWordsShelf(() => storage) };
}

test('how much is said holds at the next opening of the page; before, the usual does', () => {
  const { shelf } = memory();
  expect(shelf().load()).toBe('normal');
  shelf().save('tones');
  expect(shelf().load()).toBe('tones');
});

test('what cannot be read, and a browser that refuses its storage, leave the usual', () => {
  const { kept, shelf } = memory();
  kept.set('sayso-words', 'shouting');
  expect(shelf().load()).toBe('normal');
  const refused = createWordsShelf(() => {
    throw new DOMException('no', 'SecurityError');
  });
  expect(refused.load()).toBe('normal');
  expect(() => refused.save('tones')).not.toThrow();
});

test('"fewer words" and "more words" of a session are remembered, and its log is whole', () => {
  const { shelf } = memory();
  const stored = memoryRecords();
  const records = tellingWords(stored, shelf().save);
  const bench = openBench({
    store: (entry) => {
      records.append(entry, () => undefined);
      return null;
    },
  });
  bench.untilAsked();
  bench.hear('fewer words');
  expect(shelf().load()).toBe('tones');
  bench.untilAsked();
  bench.hear('more words');
  bench.untilAsked();
  bench.hear('more words');
  expect(shelf().load()).toBe('learning');
  return expect(stored.read('test')).resolves.toEqual(bench.entries);
});

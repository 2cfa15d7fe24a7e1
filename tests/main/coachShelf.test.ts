import { describe, expect, test } from 'vitest';
import { createShelf } from '../../src/main/coach/shelf';
import { STRANGER, type KnownCoach } from '../../src/main/coach/stored';

const KNOWN: KnownCoach = {
  ownWords: [{ kind: 'results', id: 'short', words: 'so so', said: { so: [['S', 'OW']] } }],
  callWord: 'coach',
  callWordSaid: { coach: [['K', 'OW', 'CH']] },
  readings: [{ text: 'pass', phones: ['P', 'AE', 'S'], confidence: null }],
};

function memory(refuses: (what: string) => void = () => undefined) {
  const kept = new Map<string, string>();
  const storage = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => {
      refuses(key);
      kept.set(key, text);
    },
    removeItem: (key: string) => kept.delete(key),
  } as unknown as Storage;
  return { kept, shelf: createShelf(() => storage), storage };
}

describe('what is known of the coach', () => {
  test('is found again as it was kept, and nothing where nothing was', () => {
    const { shelf } = memory();
    expect(shelf.load()).toEqual({ coach: STRANGER, trouble: null });
    expect(shelf.save(KNOWN)).toBeNull();
    expect(shelf.load()).toEqual({ coach: KNOWN, trouble: null });
  });

  test.each([
    ['cut off', '{"format":"sayso-coach-1","ownWords":['],
    ['of another format', '{"format":"sayso-coach-9"}'],
    ['without its readings', '{"format":"sayso-coach-1","ownWords":[],"callWord":null}'],
    [
      'with a reading that is none',
      JSON.stringify({
        format: 'sayso-coach-1',
        ...KNOWN,
        readings: [{ text: 'pass', phones: 7 }],
      }),
    ],
    ['no record at all', '[]'],
  ])('%s is set aside, told, and lost to nobody', (_, text) => {
    const { kept, shelf } = memory();
    kept.set('sayso-coach', text);
    expect(shelf.load()).toEqual({ coach: STRANGER, trouble: 'damaged' });
    expect(kept.get('sayso-coach-damaged')).toBe(text);
    expect(shelf.load().trouble).toBeNull();
  });

  test('a full device and a browser that refuses are told apart', () => {
    const full = memory(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    expect(full.shelf.save(KNOWN)).toBe('full');
    const refused = createShelf(() => {
      throw new DOMException('private window', 'SecurityError');
    });
    expect(refused.save(KNOWN)).toBe('refused');
    expect(refused.load()).toEqual({ coach: STRANGER, trouble: 'refused' });
  });
});

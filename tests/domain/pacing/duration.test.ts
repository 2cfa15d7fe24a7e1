import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import table from '../../../src/cues/durations.json';
import { secondsOf } from '../../../src/domain/pacing/duration';

const small = {
  words: { left: 0.3, side: 0.4 },
  lineSeconds: 0.1,
  secondsPerLetter: 0.1,
  commaSeconds: 0.2,
  sentenceSeconds: 0.5,
};

describe('how long a line takes to say', () => {
  it.each([
    ['Left side.', 0.8],
    ['LEFT, side', 1],
    ['Left. Side.', 1.3],
    ['Left... side', 1.3],
    ['left tibia', 0.9],
    ['', 0],
    ['...', 0],
  ])('%j takes %d s', (text, seconds) => {
    expect(secondsOf(small, text)).toBe(seconds);
  });

  it('knows no word by accident', () => {
    expect(secondsOf(small, 'constructor')).toBeCloseTo(1.2, 6);
  });

  it('is in whole milliseconds and never negative, whatever the text', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const seconds = secondsOf(table, text);
        expect(seconds).toBeGreaterThanOrEqual(0);
        expect(Math.abs(seconds * 1000 - Math.round(seconds * 1000))).toBeLessThan(1e-6);
      }),
    );
  });

  it('a longer text never takes less', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...Object.keys(table.words)), { minLength: 1 }),
        (words) => {
          const all = secondsOf(table, words.join(' '));
          expect(all).toBeGreaterThan(secondsOf(table, words.slice(1).join(' ')));
        },
      ),
    );
  });
});

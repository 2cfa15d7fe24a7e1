import { describe, expect, test } from 'vitest';
import { lexiconFor } from '../../src/ear/lexicon';
import { OWN_WORDS } from '../../src/ear/ownWords';

describe('a lexicon', () => {
  test('has every pronunciation of the dictionary, without stress', () => {
    expect(lexiconFor(['hundred', 'either'], {})['either']).toEqual([
      ['IY', 'DH', 'ER'],
      ['AY', 'DH', 'ER'],
    ]);
  });

  test('adds the words of the trade and those handed in, saying nothing twice', () => {
    const lexicon = lexiconFor(['pass', 'deadlift', 'zercher'], {
      zercher: 'Z ER CH ER',
      pass: 'P AE S',
    });
    expect(lexicon).toEqual({
      deadlift: [['D', 'EH', 'D', 'L', 'IH', 'F', 'T']],
      pass: [
        ['P', 'AE', 'S'],
        ['P', 'AA', 'S'],
      ],
      zercher: [['Z', 'ER', 'CH', 'ER']],
    });
  });

  test('names every word that it cannot pronounce, and where to add it', () => {
    expect(() => lexiconFor(['knees', 'zorb', 'blorf', 'constructor', 'valueof'], {})).toThrow(
      'No pronunciation for: blorf, valueof, zorb. Add each to src/ear/ownWords.ts.',
    );
  });

  test('refuses a phone that does not exist', () => {
    expect(() => lexiconFor(['zorb'], { zorb: 'Z OR B' })).toThrow('"OR" in the pronunciation');
  });

  test('own words are all spelled in phones that exist', () => {
    expect(Object.keys(lexiconFor(Object.keys(OWN_WORDS), {}))).toHaveLength(
      Object.keys(OWN_WORDS).length,
    );
  });
});

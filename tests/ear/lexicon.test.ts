import { describe, expect, test } from 'vitest';
import { lexiconFor } from '../../src/ear/lexicon';
import { OWN_WORDS } from '../../src/ear/ownWords';
import { judged } from '../training/letterSounds';

describe('a lexicon', () => {
  test('has every pronunciation of the dictionary, without stress', () => {
    expect(lexiconFor(['hundred', 'either'], {})['either']).toEqual([
      ['IY', 'DH', 'ER'],
      ['AY', 'DH', 'ER'],
    ]);
  });

  test('says its own name as people do', () => {
    expect(lexiconFor(['sayso'])['sayso']).toEqual(
      lexiconFor(['say'])['say']?.map((say) => [...say, 'S', 'OW']),
    );
  });

  test('leaves out the remarks of the dictionary', () => {
    expect(lexiconFor(['fine'])['fine']).toContainEqual(['F', 'AY', 'N']);
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

  test('says by its letters what no dictionary and no own entry has', () => {
    expect(lexiconFor(['flumpet', 'cushty', 'manky'])).toEqual({
      cushty: [['K', 'UH', 'SH', 'T', 'IY']],
      flumpet: [['F', 'L', 'AH', 'M', 'P', 'AH', 'T']],
      manky: [['M', 'AE', 'NG', 'K', 'IY']],
    });
  });

  test('letters sound as in the dictionary, words kept from learning included: one phone in ten wrong', () => {
    const { phones, wrong, words, right } = judged();
    expect(words).toBeGreaterThan(5000);
    expect(wrong / phones).toBeLessThan(0.1);
    expect(right / words).toBeGreaterThan(0.55);
  });

  test('names what has no letters, and what to do', () => {
    expect(() => lexiconFor(['knees', '155', 'constructor'], {})).toThrow(
      'No pronunciation for: 155. Write it in letters, or add it to src/ear/ownWords.ts.',
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

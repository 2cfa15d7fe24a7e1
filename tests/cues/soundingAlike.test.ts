import { describe, expect, it } from 'vitest';
import { soundingAlike } from '../../src/cues/soundingAlike';
import { phonesApart } from '../../src/domain/hearing/phonesApart';
import { lexiconFor } from '../../src/ear/lexicon';

const pair = (one: string, other: string) => [
  { words: one, meaning: 'one' },
  { words: other, meaning: 'other' },
];
const alike = (one: string, other: string): boolean =>
  soundingAlike(pair(one, other), lexiconFor(`${one} ${other}`.split(' '))).length > 0;

describe('replies that sound too alike', () => {
  it.each([
    ['heels', 'hills'],
    ['stop', 'step'],
    ['hold', 'holt'],
    ['back', 'pack'],
    ['weight shifted', 'wait shifted'],
  ])('%s and %s are refused', (one, other) => {
    expect(alike(one, other)).toBe(true);
    expect(alike(other, one)).toBe(true);
  });

  it.each([
    ['left', 'right'],
    ['pass', 'back'],
    ['knees forward', 'shoulders forward'],
    ['yes', 'no'],
    ['ribs', 'ribs flared'],
  ])('%s and %s are told apart', (one, other) => {
    expect(alike(one, other)).toBe(false);
  });

  it('may sound the same where they mean the same', () => {
    const words = ['past', 'pass'];
    const replies = words.map((word) => ({ words: word, meaning: 'held' }));
    expect(soundingAlike(replies, lexiconFor(words))).toEqual([]);
  });

  it('every pronunciation of a word counts', () => {
    const lexicon = {
      a: [['S', 'T', 'AA', 'P']],
      b: [
        ['M', 'IY'],
        ['S', 'T', 'AA', 'B'],
      ],
    };
    expect(soundingAlike(pair('a', 'b'), lexicon)).toHaveLength(1);
  });

  it('a phone of the same kind is nearer than any other', () => {
    expect(phonesApart(['P', 'AE', 'T'], ['P', 'AE', 'T'])).toBe(0);
    expect(phonesApart(['P', 'AE', 'T'], ['B', 'AE', 'T'])).toBe(0.5);
    expect(phonesApart(['P', 'AE', 'T'], ['M', 'AE', 'T'])).toBe(1);
    expect(phonesApart(['P', 'AE', 'T'], ['P', 'AE'])).toBe(1);
  });
});

import { describe, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { callWordProblems } from '../../src/cues/callWord';
import { lexiconFor } from '../../src/ear/lexicon';

const book = bookOf();
const problems = (word: string) => callWordProblems(book, word, lexiconFor);

describe('a call word', () => {
  it.each(['sayso', 'banana', 'mercury', 'hey sayso'])('"%s" may be chosen', (word) => {
    expect(problems(word)).toEqual([]);
  });

  it.each([
    ['coach', 'too short'],
    ['joe', 'too short'],
    ['lefty', 'sounds like "left'],
    ['buddy', 'sounds like "buddy"'],
    ['ready', 'sounds like "ready"'],
    ['eddie', 'sounds like "ready"'],
    ['forwards', 'sounds like'],
    ['Sayso!', 'lower-case letters'],
    ['', 'lower-case letters'],
    ['one two three', 'lower-case letters'],
    ["''", 'No pronunciation'],
  ])('"%s" is refused: %s', (word, why) => {
    expect(problems(word).join(' ')).toContain(why);
  });
});

import { describe, expect, test } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { wordsOf } from '../../src/cues/grammarWords';
import { repliesToRead } from '../../src/cues/repliesToRead';
import { grammarOf } from '../../src/domain/hearing/building';
import { withOwnWords, type OwnWords } from '../../src/domain/hearing/coachWords';
import { lexiconFor } from '../../src/ear/lexicon';
import { wordGraphOf } from '../../src/ear/wordGraph';

const book = loadBook('scripts-cues', 'en');
const lexicon = lexiconFor(wordsOf(book));
const chosen = repliesToRead(book, lexicon);
const texts = chosen.map(({ text }) => text);

const canBeHeard = (of: typeof book, prompt: string, text: string) => {
  const { arcs, final } = wordGraphOf(grammarOf(of, prompt));
  let state = 0;
  for (const word of text.split(' '))
    state = arcs[state]?.find((arc) => arc.word === word)?.to ?? -1;
  return final[state] === true;
};

describe('the replies that a voice check reads', () => {
  test('are twenty, each once, each heard where it is read, and so is every synonym', () => {
    expect(chosen).toHaveLength(20);
    expect(new Set(texts).size).toBe(20);
    for (const { prompt, text, synonyms } of chosen)
      for (const words of [text, ...synonyms])
        expect(canBeHeard(book, prompt, words), `${words} at ${prompt}`).toBe(true);
  });

  test('hold what every session asks for, and of what sounds alike the nearest', () => {
    expect(texts).toEqual(
      expect.arrayContaining(['pass', 'limited', 'lost', 'pain', 'yes', 'no', 'stop', 'rep']),
    );
    // "louder" is a phone and a half from "slower".
    expect(texts).toContain('louder');
    expect(texts).not.toContain('three');
  });

  test('read most of the phones that replies are made of', () => {
    const phones = new Set(
      texts.flatMap((text) => text.split(' ')).flatMap((w) => lexicon[w]?.[0]),
    );
    expect(phones.size).toBeGreaterThanOrEqual(28);
  });

  test("hold the coach's own words in place of the book's", () => {
    const own: OwnWords[] = [{ kind: 'results', id: 'held', words: 'cushty' }];
    const worded = withOwnWords(book, own);
    const read = repliesToRead(worded, lexiconFor(wordsOf(worded)), { own });
    expect(read.find(({ text }) => text === 'cushty')?.synonyms).toContain('pass');
    expect(read.map(({ text }) => text)).not.toContain('pass');
  });
});

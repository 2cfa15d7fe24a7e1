import { describe, expect, test } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { wordsOf } from '../../src/cues/grammarWords';
import { ownWordsProblem } from '../../src/cues/ownWordsProblem';
import { grammarOf } from '../../src/domain/hearing/building';
import {
  plainWords,
  repliesToReword,
  replyNamed,
  withOwnWords,
  type OwnWords,
} from '../../src/domain/hearing/coachWords';
import { understand } from '../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import { lexiconFor } from '../../src/ear/lexicon';
import { wordGraphOf } from '../../src/ear/wordGraph';

const book = loadBook('scripts-cues', 'en');
const SO_SO: OwnWords = { kind: 'results', id: 'short', words: 'so so' };
const typed = (text: string, at = 'check/overhead-passive', own = [SO_SO]) =>
  understand(withOwnWords(book, own), at, text, { ...DEFAULT_SETTINGS, confidence: 1 });

describe("a coach's own words", () => {
  test('are heard and understood as the reply they stand for, from one vocabulary', () => {
    expect(typed('left one forty so so')).toMatchObject({
      verdict: 'accept',
      reply: { side: 'left', result: 'short', angleDegrees: 140 },
      readback: 'left, one forty, limited',
    });
    const graph = wordGraphOf(grammarOf(withOwnWords(book, [SO_SO]), 'check/hinge-bar'));
    const so = graph.arcs[0]?.find(({ word }) => word === 'so')?.to ?? -1;
    const end = graph.arcs[so]?.find(({ word }) => word === 'so')?.to ?? -1;
    expect(graph.final[end]).toBe(true);
    expect(wordsOf(book)).not.toContain('so');
  });

  test('are unknown to the book that they were added to', () => {
    expect(typed('so so', 'check/hinge-bar', []).verdict).toBe('ignore');
  });

  test('for a reply that the book lacks do nothing', () => {
    expect(withOwnWords(book, [{ ...SO_SO, id: 'bronze' }]).vocabulary).toEqual(book.vocabulary);
  });

  test('are written as the grammar spells them', () => {
    expect(plainWords(' So-so! ')).toBe('so so');
    expect(plainWords('That’ll do')).toBe("that'll do");
  });

  test('can be given to every result, fault, side, command but stop, and to pain', () => {
    const names = repliesToReword(book).map(({ kind, id }) => `${kind}/${id}`);
    expect(names).toEqual(
      expect.arrayContaining(['results/held', 'faults/knees-forward', 'pain/none', 'commands/rep']),
    );
    expect(names).not.toContain('commands/stop');
    expect(names).not.toContain('commands/yes');
    expect(replyNamed({ kind: 'pain', id: 'none' })).toEqual({ pain: 0 });
  });
});

describe("a coach's own words are checked before they count", () => {
  const problemOf = (kind: OwnWords['kind'], id: string, words: string) =>
    ownWordsProblem(book, { kind, id, words }, lexiconFor);

  test.each([
    ['results', 'short', 'so so'],
    ['results', 'held', 'bosh'],
    ['commands', 'next', 'crack on'],
    ['faults', 'knees-forward', 'knees shot through'],
    ['pain', 'words', 'yowch'],
    ['results', 'lost', 'skewiff'],
  ] as const)('%s/%s may be "%s"', (kind, id, words) => {
    expect(problemOf(kind, id, words)).toBeNull();
  });

  test.each([
    ['results', 'short', '', 'Type the words'],
    ['results', 'short', 'about 50', 'numbers as words'],
    ['results', 'short', 'a b c d e f', 'five words'.replace('five', '5')],
    ['results', 'short', 'limited', 'heard as “limited” already'],
    ['commands', 'next', 'limited', '“limited” already means “limited”'],
    ['results', 'held', 'good', 'cannot be told from talk'],
    ['results', 'short', 'fast', 'sounds too much like “faster”'],
    ['results', 'held', 'keep your ribs down', 'Sayso says “keep your ribs down” itself'],
    ['commands', 'stop', 'whoa', 'cannot be worded otherwise'],
  ] as const)('%s/%s may not be "%s"', (kind, id, words, why) => {
    expect(problemOf(kind, id, words)).toContain(why);
  });
});

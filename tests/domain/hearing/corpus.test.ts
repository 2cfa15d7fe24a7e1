import { describe, expect, it } from 'vitest';
import { corpus, misread } from '../../corpus/score';
import { hearingBook } from './book';

const book = hearingBook();
const wrong = (name: string) => corpus(name).flatMap((each) => misread(book, each) ?? []);

describe('utterances as coaches speak', () => {
  it('are all read right where the words were tuned on them', () => {
    expect(corpus('tuned').length).toBeGreaterThanOrEqual(400);
    expect(wrong('tuned')).toEqual([]);
  });

  // Written before the words were tried on them; what was missed then was mended since. How many
  // were right at that first reading is said in DEVELOPERS.md.
  it('are read right in at least 99 of 100 of those that were kept apart at first', () => {
    const all = corpus('untouched').length;
    expect(all).toBeGreaterThanOrEqual(400);
    const misreadings = wrong('untouched');
    expect(misreadings.length / all, misreadings.join('\n')).toBeLessThanOrEqual(0.01);
  });

  it('that are talk are never acted on', () => {
    const talk = [...corpus('tuned'), ...corpus('untouched')].filter(
      ({ reading }) => reading.verdict === 'ignore',
    );
    const acted = talk.filter((each) => misread(book, each)?.includes(': accept'));
    expect(talk.length).toBeGreaterThan(150);
    expect(acted).toEqual([]);
  });

  it('do not lean on case or on the punctuation at their end', () => {
    for (const each of corpus('tuned')) {
      const loud = { ...each, text: `${each.text.toUpperCase()}!` };
      expect(misread(book, loud)).toBeNull();
    }
  });
});

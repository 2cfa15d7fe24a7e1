import { describe, expect, it } from 'vitest';
import { Agreeing } from '../../src/ear/agreeing';
import type { HeardWords } from '../../src/ear/recognising';

const heard = (text: string, confidence: number): HeardWords => ({
  ...{ text, confidence, following: 'nothing' },
  ...{ spokenSeconds: 0.3, silenceSeconds: 0.05 },
});
type Look = ['halting' | 'whole' | 'closer', atSeconds: number, text?: string, confidence?: number];

/** How far a stop word is believed at this second, after these looks. */
function belief(nowSeconds: number, ...looks: Look[]): number {
  const agreeing = new Agreeing();
  for (const [by, atSeconds, text, confidence = 0] of looks)
    agreeing.note(by, text === undefined ? null : heard(text, confidence), atSeconds);
  return agreeing.belief(nowSeconds);
}

describe('what looks say of a stop word, taken together', () => {
  it('one sure look for stop words is enough, one at the whole reply is not', () => {
    expect(belief(1, ['halting', 1, 'stop', 0.6])).toBeCloseTo(0.6);
    expect(belief(1, ['whole', 1, 'stop', 0.9])).toBe(0);
    expect(belief(1, ['whole', 0.9, 'stop', 0.4], ['whole', 1, 'stop', 0.4])).toBeCloseTo(0.64);
  });

  it('a closer look is one too, though a quick look after it found none', () => {
    expect(belief(1, ['closer', 1, 'stop', 0.9])).toBe(0);
    expect(belief(1, ['whole', 0.9, 'stop', 0.3], ['closer', 1, 'stop', 0.5])).toBeCloseTo(0.65);
    expect(
      belief(
        1,
        ['halting', 0.9, 'stop', 0.2],
        ['whole', 0.9, 'stop', 0.3],
        ['halting', 0.96],
        ['closer', 1, 'stop', 0.5],
      ),
    ).toBeCloseTo(0.65);
  });

  it('two that half believe it are as good as a sure one, also one of each', () => {
    expect(belief(1, ['halting', 0.94, 'stop', 0.3], ['halting', 1, 'stop', 0.3])).toBeGreaterThan(
      0.5,
    );
    expect(belief(1, ['halting', 1, 'stop', 0.33], ['whole', 0.9, 'stop', 0.28])).toBeGreaterThan(
      0.5,
    );
  });

  it('more of the same sound does not make it surer and surer', () => {
    const looks = [0.7, 0.76, 0.82, 0.88, 0.94].map(
      (at) => ['halting', at, 'stop', 0.2] satisfies Look,
    );
    expect(belief(1, ...looks)).toBeLessThan(0.5);
  });

  it('a look that finds none, or hardly one, ends what the same reader said before', () => {
    const sure: Look = ['halting', 0.9, 'stop', 0.4];
    const other: Look = ['whole', 0.9, 'stop', 0.2];
    expect(belief(1, sure, other, ['halting', 1])).toBe(0);
    expect(belief(1, sure, ['halting', 1, 'stop', 0.05])).toBe(0);
    expect(belief(1, sure, other, ['whole', 1])).toBeCloseTo(0.4);
  });

  it('a pause and a stop do not speak for each other, two ways to stop do', () => {
    expect(belief(1, ['halting', 0.9, 'pause', 0.4], ['halting', 1, 'stop', 0.4])).toBeCloseTo(0.4);
    expect(belief(1, ['halting', 0.9, 'stop', 0.4], ['halting', 1, 'stop there', 0.4])).toBeCloseTo(
      0.64,
    );
  });

  it('what was said longer ago was another word', () => {
    expect(belief(1.35, ['halting', 0.9, 'stop', 0.4], ['halting', 1, 'stop', 0.4])).toBeCloseTo(
      0.4,
    );
    expect(belief(2, ['halting', 1, 'stop', 0.9])).toBe(0);
  });
});

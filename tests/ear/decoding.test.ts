import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Grammar } from '../../src/domain/hearing/grammar';
import { decode } from '../../src/ear/decoding';
import { networkOf } from '../../src/ear/network';
import { OUTPUTS, outputOf } from '../../src/ear/phones';
import { posteriorsOf } from '../../src/ear/posteriors';
import { wordGraphOf } from '../../src/ear/wordGraph';
import { phrases } from './grammars';
import { randomFrom } from './noises';

/** Few phones, so that words share beginnings and repeat sounds. */
const LEXICON = {
  a: [['AA']],
  at: [
    ['AA', 'T'],
    ['T', 'AA'],
  ],
  tat: [['T', 'AA', 'T']],
  too: [['T', 'T']],
  key: [['K', 'IY']],
  keyed: [['K', 'IY', 'T']],
};
const WORDS = Object.keys(LEXICON) as (keyof typeof LEXICON)[];

const utterancesOf = (grammar: Grammar): string[] => {
  const from = (state: number): string[] => [
    ...(grammar.finals.includes(state) ? [''] : []),
    ...grammar.arcs
      .filter((arc) => arc.from === state)
      .flatMap((arc) => from(arc.to).map((rest) => `${arc.words} ${rest}`.trim())),
  ];
  return [...new Set(from(0))];
};

/** The best path of one row of phones, by trying every row of blanks and phones. */
function scoreOf(phones: number[], log: Float32Array, frames: number): number {
  const from = (frame: number, said: number, last: number): number => {
    if (frame === frames) return said === phones.length ? 0 : -Infinity;
    const at = (output: number) => log[frame * OUTPUTS + output]!;
    const next = phones[said];
    return Math.max(
      at(0) + from(frame + 1, said, 0),
      last === 0 ? -Infinity : at(last) + from(frame + 1, said, last),
      next === undefined || next === last ? -Infinity : at(next) + from(frame + 1, said + 1, next),
    );
  };
  return from(0, 0, 0);
}

const best = (grammar: Grammar, log: Float32Array, frames: number): number => {
  const rows = (words: string): number[][] =>
    words
      .split(' ')
      .reduce<number[][]>(
        (before, word) =>
          before.flatMap((phones) =>
            LEXICON[word as keyof typeof LEXICON].map((said) => [
              ...phones,
              ...said.map((phone) => outputOf(phone)!),
            ]),
          ),
        [[]],
      );
  return Math.max(
    ...utterancesOf(grammar)
      .filter((words) => words !== '')
      .flatMap(rows)
      .map((phones) => scoreOf(phones, log, frames)),
  );
};

const phrase = fc.array(fc.constantFrom(...WORDS), { minLength: 1, maxLength: 2 });
const grammars = fc
  .array(fc.record({ from: fc.nat(2), skip: fc.integer({ min: 1, max: 2 }), words: phrase }), {
    minLength: 1,
    maxLength: 6,
  })
  .map((arcs): Grammar => ({
    prompt: 'idle',
    states: 5,
    finals: [1, 3, 4],
    arcs: arcs.map(({ from, skip, words }) => ({ from, to: from + skip, words: words.join(' ') })),
  }))
  .filter((grammar) => utterancesOf(grammar).some((words) => words !== ''));

const noisyLogits = (frames: number, seed: number) => {
  const random = randomFrom(seed);
  return Float32Array.from({ length: frames * OUTPUTS }, () => random() * 6 - 3);
};

describe('decoding', () => {
  test('finds the best utterance and its score, as trying all of them does', () => {
    fc.assert(
      fc.property(grammars, fc.integer({ min: 1, max: 7 }), fc.nat(), (grammar, frames, seed) => {
        const posteriors = posteriorsOf(noisyLogits(frames, seed));
        const decoded = decode(networkOf(grammar, LEXICON), posteriors);
        const expected = best(grammar, posteriors.log, frames);
        if (expected === -Infinity) expect(decoded).toBeNull();
        else {
          expect(decoded?.score).toBeCloseTo(expected, 4);
          expect(utterancesOf(grammar)).toContain(decoded?.text);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('says what else fits, and how much worse', () => {
    const grammar = phrases('idle', ['key', 'keyed']);
    const logits = new Float32Array(4 * OUTPUTS);
    ['K', 'IY', 'T', 'T'].forEach((phone, frame) => {
      logits[frame * OUTPUTS + outputOf(phone)!] = frame < 2 ? 9 : 4;
    });
    const posteriors = posteriorsOf(logits);
    const decoded = decode(networkOf(grammar, LEXICON), posteriors)!;
    expect(decoded).toMatchObject({
      text: 'keyed',
      sure: [[expect.any(Number), expect.any(Number), expect.any(Number)]],
    });
    // Two frames of T against the same two frames as IY or blank: 4 each.
    expect(decoded.others).toEqual([
      { text: 'key', score: expect.closeTo(decoded.score - 8, 4) as number },
    ]);
    expect(decoded.fitPerPhone).toBeCloseTo(0, 5);
  });

  test('a rival inside an utterance is told with the words after it', () => {
    const arcs = [
      { from: 0, to: 1, words: 'key' },
      { from: 0, to: 1, words: 'keyed' },
      { from: 1, to: 2, words: 'a' },
    ];
    const grammar: Grammar = { prompt: 'idle', states: 3, finals: [2], arcs };
    const logits = new Float32Array(6 * OUTPUTS);
    ['K', 'IY', 'T', 'AA', 'AA', 'AA'].forEach((phone, frame) => {
      logits[frame * OUTPUTS + outputOf(phone)!] = frame === 2 ? 3 : 9;
    });
    const decoded = decode(networkOf(grammar, LEXICON), posteriorsOf(logits))!;
    expect(decoded.text).toBe('keyed a');
    expect(decoded.others[0]).toEqual({
      text: 'key a',
      score: expect.closeTo(decoded.score - 3, 4) as number,
    });
  });
});

describe('the words of a grammar', () => {
  test('shared at both ends, still say the same utterances', () => {
    fc.assert(
      fc.property(grammars, (grammar) => {
        const graph = wordGraphOf(grammar);
        const from = (state: number): string[] => [
          ...(graph.final[state] ? [''] : []),
          ...graph.arcs[state]!.flatMap(({ word, to }) =>
            from(to).map((rest) => `${word} ${rest}`.trim()),
          ),
        ];
        expect(from(0).sort()).toEqual(utterancesOf(grammar).sort());
      }),
    );
  });

  test('that go in a circle are refused', () => {
    const arcs = [
      { from: 0, to: 1, words: 'a' },
      { from: 1, to: 0, words: 'key' },
    ];
    expect(() => wordGraphOf({ prompt: 'idle', states: 2, finals: [1], arcs })).toThrow('circle');
  });
});

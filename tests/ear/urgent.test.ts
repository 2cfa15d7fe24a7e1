import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { grammarOf } from '../../src/domain/hearing/building';
import { understand } from '../../src/domain/hearing/understanding';
import { wordGraphOf } from '../../src/ear/wordGraph';
import { URGENT } from '../../src/ear/urgent';

const book = loadBook(fileURLToPath(new URL('../../scripts-cues', import.meta.url)), 'en');

/** Everything of up to three words that can be said during work. */
const short = (() => {
  const { arcs, final } = wordGraphOf(grammarOf(book, 'idle'));
  const from = (state: number, left: number): string[] => [
    ...(final[state] ? [''] : []),
    ...(left === 0
      ? []
      : arcs[state]!.flatMap(({ word, to }) =>
          from(to, left - 1).map((rest) => `${word} ${rest}`.trim()),
        )),
  ];
  return from(0, 3);
})();

test('whatever halts or pauses is told without waiting', () => {
  const urgent = short.filter((text) => {
    const { reply } = understand(book, 'idle', text, {
      passLineDegrees: 155,
      painGoesOnUpTo: 2,
      confidence: 1,
    });
    return reply?.command === 'stop' || reply?.command === 'pause';
  });
  expect(urgent).toContain('stop');
  expect(urgent.filter((text) => !URGENT.includes(text))).toEqual([]);
});

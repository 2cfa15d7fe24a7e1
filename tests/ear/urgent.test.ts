import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { grammarOf } from '../../src/domain/hearing/building';
import { promptsOf } from '../../src/domain/hearing/prompts';
import { understand } from '../../src/domain/hearing/understanding';
import { wordGraphOf } from '../../src/ear/wordGraph';
import { isUrgentIn, URGENT } from '../../src/ear/urgent';

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
  const options = { passLineDegrees: 155, painGoesOnUpTo: 2, confidence: 1 };
  const halts = (text: string) => {
    const { reply } = understand(book, 'idle', text, options);
    return reply?.command === 'stop' || reply?.command === 'pause';
  };
  const isUrgent = (text: string) => isUrgentIn(new Set(URGENT), text);
  expect(short.filter(halts)).toContain('stop');
  expect(short.filter(halts)).toContain('knees caved stop');
  expect(short.filter((text) => halts(text) !== isUrgent(text))).toEqual([]);
});

test('whatever is told without waiting can be heard at every prompt, and acts there', () => {
  for (const { prompt } of promptsOf(book)) {
    const { arcs, final } = wordGraphOf(grammarOf(book, prompt));
    const after = (states: number[], wanted: string): number[] =>
      states.flatMap((state) =>
        arcs[state]!.flatMap(({ word, to }) => (word === wanted ? [to] : [])),
      );
    for (const text of URGENT) {
      const ends = text.split(' ').reduce(after, [0]);
      expect(
        ends.some((state) => final[state]),
        `${prompt}: ${text}`,
      ).toBe(true);
      const options = { passLineDegrees: 155, painGoesOnUpTo: 2, confidence: 1 };
      const { verdict, reply } = understand(book, prompt, text, options);
      expect(verdict, `${prompt}: ${text}`).toBe('accept');
      expect([reply?.command, reply?.result], `${prompt}: ${text}`).toEqual(
        expect.arrayContaining([expect.stringMatching(/^(stop|pause|pain)$/)]),
      );
    }
  }
});

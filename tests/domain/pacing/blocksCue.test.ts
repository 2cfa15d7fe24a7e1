import { describe, expect, it } from 'vitest';
import { loadBook } from '../../../src/cues/fromFolder';
import { blockHeight } from '../../../src/domain/measuring/blockHeight';
import { planStep } from '../../../src/domain/pacing/planning';
import { textOf } from '../../../src/domain/script';
import { evenly, setStep } from './readable';

const book = loadBook('scripts-cues', 'en');

/** A knee that needs so many millimetres under a bell of 280. */
const needing = (millimetres: number, blocksMillimetres?: number[]) =>
  blockHeight({ knee: { measuredMillimetres: 280 + millimetres }, blocksMillimetres });
const said = (drill: string, blocks?: ReturnType<typeof needing>, more = {}) =>
  planStep(book, setStep(drill), evenly, { blocks: blocks ?? null, ...more }).flatMap(
    ({ text }) => text ?? [],
  );

describe('what the bell stands on, said as the bell hinge is set up', () => {
  it.each<[string, ReturnType<typeof needing>, string]>([
    [
      'any height can be had',
      needing(207),
      'Set the bell on about twenty one centimetres of blocks.',
    ],
    ['that is one centimetre', needing(8), 'Set the bell on about one centimetre of blocks.'],
    ['that is next to none', needing(3), 'Set the bell on about one centimetre of blocks.'],
    ['one block does', needing(180, [200]), 'Set the bell on your block of twenty centimetres.'],
    [
      'two alike do',
      needing(190, [100, 100, 100]),
      'Set the bell on these blocks: ten and ten centimetres.',
    ],
    [
      'three do, thickest first',
      needing(225, [60, 150, 20]),
      'Set the bell on these blocks: fifteen, six and two centimetres.',
    ],
    [
      'the bell is high enough',
      needing(0, [100]),
      'The bell stays on the floor, its handle at your knee.',
    ],
    [
      'all blocks are not enough',
      needing(207, [50]),
      'The bell needs about twenty one centimetres under it, more than your blocks give.',
    ],
  ])('%s', (_, blocks, sentence) => {
    const lines = said('bell-hinge', blocks);
    const setUp = (book.drills['bell-hinge']?.setUp ?? []).map(textOf);
    expect(lines[lines.indexOf(setUp[0] ?? '') - 1]).toBe(sentence);
    // One sentence more, and nothing else.
    expect(lines.filter((line) => line !== sentence)).toEqual(said('bell-hinge'));
  });

  it('is said once: not when the drill was set up before', () => {
    const again = { known: 'on' } as const;
    expect(said('bell-hinge', needing(207), again)).toEqual(said('bell-hinge', undefined, again));
  });

  it('is said of no drill that has no blocks', () => {
    const blocked = Object.keys(book.drills).filter(
      (drill) => said(drill, needing(207)).length > said(drill).length,
    );
    expect(blocked).toEqual(['bell-hinge']);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blockHeight } from '../../../src/domain/measuring/blockHeight';
import { kneeHeight } from '../../../src/domain/measuring/kneeHeight';

const adult = (statureMillimetres: number) => ({ statureMillimetres, ageYears: 30 });
const measured = { measuredMillimetres: 480 };

describe('block height', () => {
  it('rounds up to the blocks at hand, lowest stack first, fewest blocks where equal', () => {
    expect(blockHeight({ knee: measured, blocksMillimetres: [100, 50, 150, 50] })).toEqual({
      neededMillimetres: 200,
      errorMillimetres: 0,
      blocksMillimetres: [150, 50],
      stackMillimetres: 200,
    });
    const two = blockHeight({ knee: measured, blocksMillimetres: [150, 120] });
    expect(two.stackMillimetres).toBe(270);
  });

  it('is what is needed where any height can be had, and as sure as the knee', () => {
    const estimated = blockHeight({ knee: adult(1750) });
    expect(estimated).toMatchObject({ stackMillimetres: 207.1, errorMillimetres: 15.1 });
    expect(blockHeight({ knee: measured })).toMatchObject({
      stackMillimetres: 200,
      errorMillimetres: 0,
    });
  });

  it('says that all blocks at hand are not enough', () => {
    const { stackMillimetres } = blockHeight({ knee: adult(1900), blocksMillimetres: [50, 50] });
    expect(stackMillimetres).toBeNull();
    expect(blockHeight({ knee: measured, blocksMillimetres: [] }).stackMillimetres).toBeNull();
  });

  it('needs no block under a bell that reaches the knee', () => {
    for (const handleMillimetres of [480, 490]) {
      const high = blockHeight({ knee: measured, handleMillimetres, blocksMillimetres: [50] });
      expect(high, String(handleMillimetres)).toEqual({
        neededMillimetres: 0,
        errorMillimetres: 0,
        blocksMillimetres: [],
        stackMillimetres: 0,
      });
    }
  });

  it('adds the sole that the athlete stands on', () => {
    const barefoot = blockHeight({ knee: measured }).neededMillimetres;
    const shod = blockHeight({ knee: measured, soleMillimetres: 20 }).neededMillimetres;
    expect(shod - barefoot).toBe(20);
  });

  it('stacks blocks in inches without losing a hair', () => {
    const halfInches = [12.7, 12.7, 12.7];
    const exact = { knee: { measuredMillimetres: 318.1 }, blocksMillimetres: halfInches };
    expect(blockHeight(exact).stackMillimetres).toBe(38.1);
  });

  it('never stacks less than is needed, and never a block more', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1400, max: 2000 }),
        fc.array(fc.integer({ min: 10, max: 200 }), { maxLength: 6 }),
        (stature, blocks) => {
          const result = blockHeight({ knee: adult(stature), blocksMillimetres: blocks });
          if (result.stackMillimetres === null) {
            const all = blocks.reduce((sum, block) => sum + block, 0);
            expect(all).toBeLessThan(result.neededMillimetres);
            return;
          }
          expect(result.stackMillimetres).toBeGreaterThanOrEqual(result.neededMillimetres);
          for (const block of result.blocksMillimetres) {
            expect(result.stackMillimetres - block).toBeLessThan(result.neededMillimetres);
          }
        },
      ),
    );
  });

  it('grows with stature, whatever blocks are at hand', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1400, max: 2000 }),
        fc.integer({ min: 1400, max: 2000 }),
        fc.option(fc.array(fc.integer({ min: 10, max: 200 }), { maxLength: 6 })),
        (one, other, blocks) => {
          const [shorter, taller] = [one, other]
            .sort((a, b) => a - b)
            .map((stature) => {
              const blocksMillimetres = blocks ?? undefined;
              return blockHeight({ knee: adult(stature), blocksMillimetres });
            });
          const stackOf = (height = shorter) => height?.stackMillimetres ?? Infinity;
          expect(stackOf(shorter)).toBeLessThanOrEqual(stackOf(taller));
        },
      ),
    );
  });
});

describe('what cannot be a measure is refused, with what to do', () => {
  it.each([1399, 2001, 175, Number.NaN])('an estimate for a stature of %d mm', (stature) => {
    expect(() => kneeHeight(adult(stature))).toThrow(/140 to 200 cm.*measure the knee/);
  });

  it('an estimate for a child, or at an unknown age: measure the knee', () => {
    const child = { statureMillimetres: 1500, ageYears: 16 };
    expect(() => kneeHeight(child)).toThrow(/under 17/);
    expect(() => kneeHeight({ ...child, ageYears: undefined })).toThrow(
      /age in years, or measure the knee/,
    );
    expect(() => kneeHeight({ ...child, ageYears: NaN })).toThrow(/measure the knee/);
    expect(kneeHeight({ ...child, ageYears: 17 }).millimetres).toBeGreaterThan(400);
    expect(kneeHeight({ measuredMillimetres: 430 }).millimetres).toBe(430);
  });

  it('a knee, sole, handle or block that cannot be one', () => {
    expect(() => kneeHeight({ measuredMillimetres: 48 })).toThrow(/in millimetres/);
    expect(() => blockHeight({ knee: measured, soleMillimetres: -1 })).toThrow(/sole/);
    expect(() => blockHeight({ knee: measured, handleMillimetres: 28 })).toThrow(
      /top of the handle/,
    );
    expect(() => blockHeight({ knee: measured, blocksMillimetres: [0] })).toThrow(/blocks/);
    const many = Array.from({ length: 13 }, () => 20);
    expect(() => blockHeight({ knee: measured, blocksMillimetres: many })).toThrow(/at most 12/);
  });
});

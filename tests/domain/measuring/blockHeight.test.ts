import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blockHeight, kneeHeightMillimetres } from '../../../src/domain/measuring/blockHeight';

const adult = (statureCentimetres: number) => ({ statureCentimetres, ageYears: 30 });

describe('block height', () => {
  it('rounds up to the blocks at hand, lowest stack first, fewest blocks where equal', () => {
    const knee = { measuredMillimetres: 480 };
    expect(blockHeight({ knee, blocksMillimetres: [100, 150, 50, 50] })).toEqual({
      neededMillimetres: 200,
      blocksMillimetres: [150, 50],
      stackMillimetres: 200,
    });
    expect(blockHeight({ knee, blocksMillimetres: [150, 120] }).stackMillimetres).toBe(270);
  });

  it('says that all blocks at hand are not enough', () => {
    const { stackMillimetres } = blockHeight({ knee: adult(190), blocksMillimetres: [50, 50] });
    expect(stackMillimetres).toBeNull();
  });

  it('needs no block under a bell that reaches the knee', () => {
    const high = blockHeight({ knee: adult(150), handleMillimetres: 450, blocksMillimetres: [50] });
    expect(high).toEqual({ neededMillimetres: 0, blocksMillimetres: [], stackMillimetres: 0 });
  });

  it('adds the sole that the athlete stands on', () => {
    const barefoot = blockHeight({ knee: adult(175) }).neededMillimetres;
    const shod = blockHeight({ knee: adult(175), soleMillimetres: 20 }).neededMillimetres;
    expect(shod - barefoot).toBeCloseTo(20, 1);
  });

  it('never stacks less than is needed, and never a block more', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 140, max: 200 }),
        fc.array(fc.integer({ min: 10, max: 200 }), { maxLength: 6 }),
        (stature, blocks) => {
          const result = blockHeight({ knee: adult(stature), blocksMillimetres: blocks });
          if (result.stackMillimetres === null) {
            expect(blocks.reduce((sum, block) => sum + block, 0)).toBeLessThan(
              result.neededMillimetres,
            );
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
});

describe('what cannot be a measure is refused, with what to do', () => {
  it.each([139, 201, 1.75, Number.NaN])('a stature of %d cm', (stature) => {
    expect(() => kneeHeightMillimetres(adult(stature))).toThrow(/140 to 200 cm.*centimetres/);
  });

  it('a child by stature: measure the knee', () => {
    const child = { statureCentimetres: 150, ageYears: 16 };
    expect(() => kneeHeightMillimetres(child)).toThrow(/measure the knee/);
    expect(kneeHeightMillimetres({ measuredMillimetres: 430 })).toBe(430);
  });

  it('a knee, sole, handle or block that cannot be one', () => {
    const knee = { measuredMillimetres: 480 };
    expect(() => kneeHeightMillimetres({ measuredMillimetres: 48 })).toThrow(/in millimetres/);
    expect(() => blockHeight({ knee, soleMillimetres: -1 })).toThrow(/sole/);
    expect(() => blockHeight({ knee, handleMillimetres: 28 })).toThrow(/top of the handle/);
    expect(() => blockHeight({ knee, blocksMillimetres: [0] })).toThrow(/blocks/);
  });
});

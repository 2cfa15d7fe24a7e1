import { describe, expect, it } from 'vitest';
import { blocksFor } from '../../src/domain/athlete';

describe('the blocks for an athlete', () => {
  it('are not known where neither knee nor stature is', () => {
    expect(blocksFor({})).toBeNull();
    expect(blocksFor({ ageYears: 30, sex: 'male', blocksMillimetres: [100] })).toBeNull();
  });

  it('come from the knee that was measured, before one that is estimated', () => {
    const measured = { kneeMillimetres: 500, statureMillimetres: 1750, ageYears: 12 };
    expect(blocksFor(measured)).toMatchObject({ neededMillimetres: 220, errorMillimetres: 0 });
  });

  it('take the sole, the bell and the blocks at hand into account, either way', () => {
    const gym = { soleMillimetres: 20, bellHandleMillimetres: 240, blocksMillimetres: [300] };
    expect(blocksFor({ kneeMillimetres: 500, ...gym })).toMatchObject({
      neededMillimetres: 280,
      stackMillimetres: 300,
    });
    expect(blocksFor({ statureMillimetres: 1750, ageYears: 30, ...gym })).toMatchObject({
      neededMillimetres: 267.1,
      stackMillimetres: 300,
    });
  });
});

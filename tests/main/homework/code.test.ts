import type { default as Read } from 'jsqr';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { CODE_LETTERS_MOST, codeOf } from '../../../src/main/homework/code';
import { readHandedOver } from '../../../src/main/homework/reading';
import { homeworkTravels } from '../../../src/main/homework/travelling';
import type { DrawnCode } from '../../../src/screens/homework/state';
import { ADDRESS, HANDOVER, NOW } from './examples';

// Its own types are of a module that has a default; Node gives the function itself.
const read = createRequire(import.meta.url)('jsqr') as typeof Read;

/** As a screen shows it, so many pixels a square: drawn by the path alone. */
function pixelsOf({ size, path }: DrawnCode, pixels = 3) {
  const side = size * pixels;
  const image = new Uint8ClampedArray(side * side * 4).fill(255);
  for (const [, x, y, width] of path.matchAll(/M(\d+) (\d+)h(\d+)v1H\1z/g)) {
    for (let row = Number(y) * pixels; row < (Number(y) + 1) * pixels; row += 1) {
      for (let at = Number(x); at < Number(x) + Number(width); at += 1) {
        for (let pixel = at * pixels; pixel < (at + 1) * pixels; pixel += 1) {
          image.fill(0, (row * side + pixel) * 4, (row * side + pixel) * 4 + 3);
        }
      }
    }
  }
  return { image, side };
}

const readBy = (code: DrawnCode): string | null => {
  const { image, side } = pixelsOf(code);
  return read(image, side, side)?.data ?? null;
};

describe('the code that is drawn', () => {
  it('of the largest homework there is is read by another program as the link, and holds the homework', async () => {
    const { travels } = await homeworkTravels(ADDRESS, HANDOVER);
    expect(travels.link?.length).toBeLessThan(700);
    const found = readBy(travels.code!);
    expect(found).toBe(travels.link);
    expect(await readHandedOver(found!, NOW)).toEqual({ what: 'homework', handover: HANDOVER });
  });

  it('is read as long as a code may be, and none is drawn beyond', () => {
    const longest = `${ADDRESS}#report=`.padEnd(CODE_LETTERS_MOST, 'aB3_-');
    expect(readBy(codeOf(longest)!)).toBe(longest);
    expect(codeOf(`${longest}a`)).toBeNull();
  });

  it('has four squares of white around it, as the norm asks', () => {
    const { size, path } = codeOf('a')!;
    const squares = [...path.matchAll(/M(\d+) (\d+)h(\d+)/g)].map(([, x, y, width]) =>
      [x, y, width].map(Number),
    );
    for (const [x = 0, y = 0, width = 0] of squares) {
      expect(Math.min(x, y)).toBeGreaterThanOrEqual(4);
      expect(Math.max(x + width, y + 1)).toBeLessThanOrEqual(size - 4);
    }
    expect(squares.length).toBeGreaterThan(30);
  });
});

import { encode } from 'uqr';
import type { DrawnCode } from '../../screens/homework/state';

/**
 * More makes squares too small for a phone that reads them from a screen or from paper (common
 * practice, no source): about 120 squares a side.
 */
export const CODE_LETTERS_MOST = 1200;

/** Squares of white around it (ISO/IEC 18004: four). */
const QUIET = 4;

/**
 * A text as a QR code, to be drawn: 15 % of it may be dirty or torn (level M). Null where the text
 * is too long for one.
 */
export function codeOf(text: string): DrawnCode | null {
  if (text.length > CODE_LETTERS_MOST) return null;
  const { data, size } = encode(text, { ecc: 'M', border: QUIET });
  const runs = data.flatMap((row, y) => {
    const drawn: string[] = [];
    for (let x = 0; x < size; x += 1) {
      if (row[x] !== true) continue;
      const from = x;
      while (row[x + 1] === true) x += 1;
      drawn.push(`M${from} ${y}h${x + 1 - from}v1H${from}z`);
    }
    return drawn;
  });
  return { size, path: runs.join('') };
}

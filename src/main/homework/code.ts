import { encode } from 'uqr';
import type { DrawnCode } from '../../screens/homework/state';

/**
 * More makes squares too small for a phone that reads them from a screen (common practice, no
 * source): 125 squares a side. A session of homework in three areas has about 1,360.
 */
export const CODE_LETTERS_MOST = 1450;

/** Up to so many letters a code may be printed, so that dirt is reckoned with; homework has fewer. */
const PRINTED_LETTERS_MOST = 700;

/** Squares of white around it (ISO/IEC 18004: four). */
const QUIET = 4;

/**
 * A text as a QR code, to be drawn: 15 % of a short one may be dirty or torn (level M), 7 % of a
 * long one (L), which has larger squares for it. Null where the text is too long for one.
 */
export function codeOf(text: string): DrawnCode | null {
  if (text.length > CODE_LETTERS_MOST) return null;
  const ecc = text.length > PRINTED_LETTERS_MOST ? 'L' : 'M';
  const { data, size } = encode(text, { ecc, border: QUIET });
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

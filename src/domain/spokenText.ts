/** What a text must be to be spoken as one line. */

/** Longer than one spoken idea. */
export const MOST_LETTERS = 200;

/**
 * Controls, halves of a character, line ends, and everything that cannot be seen, such as what
 * turns the direction of a text, so that it reads as another (Unicode Technical Report 36).
 */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}\p{Zl}\p{Zp}]/u;

/** Why a text cannot be spoken, and what to do; null where it can. It is not tidied up. */
export function unspeakable(text: string): string | null {
  if (text.length > MOST_LETTERS)
    return `is too long to be one spoken idea: ${MOST_LETTERS} characters at most`;
  const [unseen] = UNSEEN.exec(text) ?? [];
  if (unseen !== undefined) {
    const code = (unseen.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
    return `has a character that cannot be seen (U+${code}): delete the text and type it anew`;
  }
  if (/[{}]/.test(text)) return 'must be one plain sentence, without { }';
  if (text.trim() === '') return 'must not be empty';
  return /[\p{L}\p{N}]/u.test(text) ? null : 'has no letter to be spoken';
}

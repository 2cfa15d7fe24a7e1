/** A note of the coach about a visit. */

/** As much as is read beside the bar, and some. */
export const NOTE_LETTERS_MOST = 2000;
/** From here on it is said how much is left. */
export const NOTE_LETTERS_NEAR = 1800;

/** Letters as people count them, more or less: one that is made of two is one. */
export const lettersIn = (text: string): number => [...text.trim()].length;

/** The text as it is kept, or what is wrong with it and what to do. */
export function noteFrom(text: string): { text: string } | { problem: string } {
  const letters = lettersIn(text);
  if (letters === 0) return { problem: 'There is nothing in it yet. Write something first.' };
  return letters > NOTE_LETTERS_MOST
    ? {
        problem: `It has ${letters} letters; at most ${NOTE_LETTERS_MOST} are kept. Make it shorter, or write two notes.`,
      }
    : { text: text.trim() };
}

/** Text of unknown origin, such as a name, made fit for one line of a sheet. */

/** What turns the direction of text, joins or hides letters: no name needs it on a sheet. */
const HIDDEN = /[\u061C\u200B-\u200F\u202A-\u202E\u2060-\u2064\u2066-\u206F\uFEFF\uFFF9-\uFFFB]/gu;
/** Control characters, line ends among them, and halves of letters that lost the other half. */
const CONTROL = /[\p{Cc}\p{Cs}\u2028\u2029]/gu;

/**
 * One line without control characters, without what reverses its direction, at most `most`
 * characters, ended by an ellipsis where it was longer.
 *
 * @example plain('Quib\n\u202EMarn', 80) // 'Quib Marn'
 */
export function plain(text: string, most: number): string {
  const line = text.replace(HIDDEN, '').replace(CONTROL, ' ').replace(/\s+/gu, ' ').trim();
  const letters = [...line];
  return letters.length > most ? `${letters.slice(0, most - 1).join('')}…` : line;
}

/** The first character of a text that no line may hold, since it cannot be seen; null where all can. */
export const unseenIn = (text: string): string | null =>
  (text.match(HIDDEN) ?? text.match(CONTROL))?.[0] ?? null;

/**
 * The initials of a name, one for each word: `initialsOf('Quib Marn')` is "Q. M.". Empty where it
 * has no letter.
 */
export const initialsOf = (name: string): string =>
  (plain(name, 200).match(/[\p{L}\p{N}][\p{L}\p{N}\p{M}'’]*/gu) ?? [])
    .map((word) => `${[...word.normalize('NFC')][0]?.toLocaleUpperCase('en') ?? ''}.`)
    .join(' ');

/** How long words take to say, measured with the shipped voice: src/cues/durations.json. */
export interface Durations {
  /** Seconds of each word, lower case. */
  words: Record<string, number>;
  /** Seconds that any line takes besides its words: its last word is drawn out. */
  lineSeconds: number;
  /** Seconds of one letter of a word that was not measured. */
  secondsPerLetter: number;
  /** Seconds of the gap at a comma, colon or semicolon. */
  commaSeconds: number;
  /** Seconds of the gap between two sentences. */
  sentenceSeconds: number;
}

/**
 * Seconds that `text` takes to say, to the millisecond: the same text and table always give the
 * same number, so that a timeline can be repeated. Text without words takes none.
 *
 * @example secondsOf(durations, 'Left side.')
 */
export function secondsOf(durations: Durations, text: string): number {
  const { words, lineSeconds, secondsPerLetter, commaSeconds, sentenceSeconds } = durations;
  let total = 0;
  // A gap is only heard between two words, not after the last.
  let gap = 0;
  for (const { word, mark } of partsOf(text)) {
    if (word !== undefined) {
      const known = Object.hasOwn(words, word) ? words[word] : undefined;
      total += gap + (known ?? [...word].length * secondsPerLetter);
      gap = 0;
    } else if (mark !== undefined && total > 0) {
      gap = Math.max(gap, /[.!?]/.test(mark) ? sentenceSeconds : commaSeconds);
    }
  }
  return total === 0 ? 0 : Math.round((total + lineSeconds) * 1000) / 1000;
}

/** The words and marks of a text, in order; each part is one or the other. */
export const partsOf = (text: string): { word?: string; mark?: string }[] =>
  [...text.toLowerCase().matchAll(/([\p{L}\p{N}']+)|([,;:.!?]+)/gu)].map(([, word, mark]) =>
    word !== undefined ? { word } : { mark: mark ?? '' },
  );

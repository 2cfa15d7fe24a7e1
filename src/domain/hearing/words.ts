/** One word of an utterance; `after` tells whether punctuation stands before it. */
export interface Word {
  text: string;
  after: boolean;
}

/** An utterance cut into words. */
export interface Words {
  words: Word[];
  /** A question mark was typed or recognised. */
  question: boolean;
}

/** Cuts a text into lower-case words; never throws. "7/10" is read as "7 out of ten". */
export function wordsOf(text: string): Words {
  const plain = text
    .toLowerCase()
    .normalize('NFKC')
    .replace(/[’‘`´]/g, "'")
    .replace(/(\d)\s*\/\s*10\b/g, '$1 out of ten')
    .replace(/(\d)\s*[-–]\s*(\d)/g, '$1 or $2')
    .replace(/(\d)\s*°/g, '$1 degrees')
    .replace(/(\d)([a-z])/g, '$1 $2')
    .replace(/(\p{L})-(\p{L})/gu, '$1 $2');
  const words: Word[] = [];
  let after = false;
  for (const [piece] of plain.matchAll(/[\p{L}\d]+(?:'[\p{L}]+)*'?|[^\s\p{L}\d']+/gu)) {
    if (/[\p{L}\d]/u.test(piece)) {
      words.push({ text: piece.replace(/'$/, ''), after: after && words.length > 0 });
      after = false;
    } else after = true;
  }
  return { words, question: plain.includes('?') };
}

/** Words alone, numbers in letters up to twelve: what a recogniser writes is spelt its own way. */
const plain = (text: string): string[] =>
  text
    .toLowerCase()
    .replace(/\d+/g, (digits) => NUMBERS[Number(digits)] ?? digits)
    .replace(/[^a-z' ]+/g, ' ')
    .split(' ')
    .filter(Boolean);

const NUMBERS = 'zero one two three four five six seven eight nine ten eleven twelve'.split(' ');

/** How many words of `said` were written wrong, left out or put in between (edit distance). */
export function wordsWrong(said: string, written: string): { wrong: number; of: number } {
  const [wanted, found] = [plain(said), plain(written)];
  let row = found.map((_, at) => at + 1);
  row.unshift(0);
  wanted.forEach((word, index) => {
    const next = [index + 1];
    found.forEach((other, at) => {
      const [left = 0, above = 0, corner = 0] = [next[at], row[at + 1], row[at]];
      next.push(Math.min(left + 1, above + 1, corner + (word === other ? 0 : 1)));
    });
    row = next;
  });
  return { wrong: row.at(-1) ?? 0, of: wanted.length };
}

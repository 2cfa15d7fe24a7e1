/** How words sound: ARPAbet phones without stress, each word with all its pronunciations. */
export type Lexicon = Record<string, string[][]>;

/** Phones made in much the same way or place, which noise turns into each other. */
const CONFUSABLE = [
  ...['P T K', 'B D G', 'P B', 'T D', 'K G', 'M N NG', 'L W', 'R W', 'CH JH', 'CH SH'],
  ...['F TH S', 'V DH Z', 'S SH', 'Z ZH', 'F V', 'S Z', 'TH DH', 'SH ZH'],
  ...['IY IH EY', 'IH EH', 'EH AE AH', 'AH ER', 'AH AA', 'AA AO OW', 'AY AA', 'UH UW', 'OW UW'],
].map((phones) => phones.split(' '));
/** The phones that each may be turned into. */
const TURNED_INTO = new Map<string, Set<string>>();
for (const phones of CONFUSABLE)
  for (const phone of phones)
    TURNED_INTO.set(phone, new Set([...(TURNED_INTO.get(phone) ?? []), ...phones]));
export const VOWELS = new Set('AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW'.split(' '));
/** What it costs to take one phone for another, or to lose one. */
const CONFUSABLE_COST = 0.5;
const VOWEL_COST = 0.75;
const OTHER_COST = 1;

/**
 * Two replies of different meaning are refused where they differ by at most one phone, and by
 * less than a quarter of the longer one (common practice for closed grammars, no source).
 */
export const TOO_FEW_PHONES = 1;
const TOO_SMALL_SHARE = 0.25;

/** Every way to pronounce some words; a word without pronunciation makes none. */
export const phonesOf = (words: string, lexicon: Lexicon): string[][] =>
  words
    .split(' ')
    .reduce<string[][]>(
      (ways, word) =>
        ways.flatMap((way) =>
          (Object.hasOwn(lexicon, word) ? (lexicon[word] ?? []) : []).map((phones) => [
            ...way,
            ...phones,
          ]),
        ),
      [[]],
    );

/** Whether the ear may take one for the other. */
export const tooAlike = (one: string[], other: string[]): boolean =>
  Math.abs(one.length - other.length) <= TOO_FEW_PHONES &&
  tooFew(phonesApart(one, other), Math.max(one.length, other.length));

/** Whether so many phones, of those of the longer one, are too few to be told apart by. */
export const tooFew = (phones: number, longer: number): boolean =>
  phones <= TOO_FEW_PHONES && phones / longer < TOO_SMALL_SHARE;

/** Edit distance over phones: 0 for the same, 1 for each phone that is plainly another. */
export const phonesApart = (one: string[], other: string[]): number =>
  one.reduce((row, phone) => rowAfter(row, phone, other), firstRow(other)).at(-1) ?? 0;

/** How far nothing at all is from each beginning of it. */
export const firstRow = (other: string[]): number[] =>
  Array.from({ length: other.length + 1 }, (_, index) => index * OTHER_COST);

/** The row before, once one more phone was said; the last of it is the distance from all of `other`. */
export function rowAfter(row: number[], phone: string, other: string[]): number[] {
  const next = [(row[0] ?? 0) + OTHER_COST];
  other.forEach((against, index) => {
    next.push(
      Math.min(
        (row[index] ?? 0) + costOf(phone, against),
        (row[index + 1] ?? 0) + OTHER_COST,
        (next[index] ?? 0) + OTHER_COST,
      ),
    );
  });
  return next;
}

const costOf = (one: string, other: string): number => {
  if (one === other) return 0;
  if (TURNED_INTO.get(one)?.has(other) === true) return CONFUSABLE_COST;
  return VOWELS.has(one) && VOWELS.has(other) ? VOWEL_COST : OTHER_COST;
};

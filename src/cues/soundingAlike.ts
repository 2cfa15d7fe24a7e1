/** How words sound: ARPAbet phones without stress, each word with all its pronunciations. */
export type Lexicon = Record<string, string[][]>;

/** One reply as it may be spoken, with what it means. */
export interface SpokenReply {
  words: string;
  meaning: string;
}

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
const TOO_FEW_PHONES = 1;
const TOO_SMALL_SHARE = 0.25;

/** Pairs of replies that mean different things and sound too alike to be told apart by ear. */
export function soundingAlike(
  replies: SpokenReply[],
  lexicon: Lexicon,
): { one: SpokenReply; other: SpokenReply }[] {
  const heard = replies.map((reply) => ({ reply, phones: phonesOf(reply.words, lexicon) }));
  return heard.flatMap((one, index) =>
    heard
      .slice(index + 1)
      .filter(
        (other) =>
          one.reply.meaning !== other.reply.meaning &&
          one.phones.some((a) => other.phones.some((b) => tooAlike(a, b))),
      )
      .map((other) => ({ one: one.reply, other: other.reply })),
  );
}

/** The first of these replies of another meaning that sounds too much like this one, or null. */
export function soundsLikeOneOf(
  reply: SpokenReply,
  others: SpokenReply[],
  lexicon: Lexicon,
): SpokenReply | null {
  const said = phonesOf(reply.words, lexicon);
  const isAlike = (other: SpokenReply) =>
    other.meaning !== reply.meaning &&
    phonesOf(other.words, lexicon).some((b) => said.some((a) => tooAlike(a, b)));
  return others.find(isAlike) ?? null;
}

/** How near the nearest reply of another meaning sounds: phones amiss of all, 0 to 1 and more. */
export function nearestOf(
  reply: { text: string; meaning: string },
  others: { text: string; meaning: string }[],
  lexicon: Lexicon,
): number {
  const said = phonesOf(reply.text, lexicon);
  const shares = others
    .filter(({ meaning }) => meaning !== reply.meaning)
    .flatMap(({ text }) => phonesOf(text, lexicon))
    .flatMap((b) => said.map((a) => phonesApart(a, b) / Math.max(a.length, b.length)));
  return Math.min(1, ...shares);
}

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

const tooAlike = (one: string[], other: string[]): boolean => {
  const longer = Math.max(one.length, other.length);
  if (longer - Math.min(one.length, other.length) > TOO_FEW_PHONES) return false;
  const phones = phonesApart(one, other);
  return phones <= TOO_FEW_PHONES && phones / longer < TOO_SMALL_SHARE;
};

/** How far apart two replies sound: phones that differ, as a share of the longer, 0 to 1. */
export const apart = (one: string, other: string, lexicon: Lexicon): number =>
  Math.min(
    1,
    ...phonesOf(one, lexicon).flatMap((a) =>
      phonesOf(other, lexicon).map((b) => phonesApart(a, b) / Math.max(a.length, b.length)),
    ),
  );

/** Edit distance over phones: 0 for the same, 1 for each phone that is plainly another. */
export function phonesApart(one: string[], other: string[]): number {
  let row = Array.from({ length: other.length + 1 }, (_, index) => index * OTHER_COST);
  for (const phone of one) {
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
    row = next;
  }
  return row[other.length] ?? 0;
}

const costOf = (one: string, other: string): number => {
  if (one === other) return 0;
  if (TURNED_INTO.get(one)?.has(other) === true) return CONFUSABLE_COST;
  return VOWELS.has(one) && VOWELS.has(other) ? VOWEL_COST : OTHER_COST;
};

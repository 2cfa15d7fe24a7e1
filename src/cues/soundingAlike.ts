import { phonesApart, phonesOf, tooAlike, type Lexicon } from '../domain/hearing/phonesApart';

export type { Lexicon } from '../domain/hearing/phonesApart';

/** One reply as it may be spoken, with what it means. */
export interface SpokenReply {
  words: string;
  meaning: string;
}

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

/** How far apart two replies sound: phones that differ, as a share of the longer, 0 to 1. */
export const apart = (one: string, other: string, lexicon: Lexicon): number =>
  Math.min(
    1,
    ...phonesOf(one, lexicon).flatMap((a) =>
      phonesOf(other, lexicon).map((b) => phonesApart(a, b) / Math.max(a.length, b.length)),
    ),
  );

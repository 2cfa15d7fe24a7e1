import type { CueBook } from '../script';
import { COMMANDS, NO_REPLY, type Reply } from './reply';
import type { Vocabulary, Ways } from './vocabulary';
import { wordsOf } from './words';

/** A reply that may get words of a coach's own: where it stands in the vocabulary, and its id there. */
export interface ReplyName {
  kind: 'results' | 'faults' | 'commands' | 'sides' | 'pain' | 'redFlags';
  /** Of pain: `words` (it hurts) or `none` (it does not). */
  id: string;
}

/** What a coach says for a reply, beside the words of the book. */
export interface OwnWords extends ReplyName {
  /** Lower-case words separated by single spaces. */
  words: string;
}

/** No longer: short replies are heard best, and longer ones are talk. */
export const MOST_OWN_WORDS = 5;

/** Commands that answer to nothing else than their own words: stopping is never reworded. */
const AS_THEY_ARE = ['stop', 'go-to', 'yes', 'no'];

/** Every reply that may get words of one's own, with the fewest words it is known by, in file order. */
export function repliesToReword({ vocabulary }: CueBook): (ReplyName & { readback: string })[] {
  const { results, faults, commands, sides, pain, redFlags } = vocabulary;
  const named = (kind: ReplyName['kind'], ways: Record<string, { readback: string }>) =>
    Object.entries(ways).map(([id, { readback }]) => ({ kind, id, readback }));
  return [
    ...named('results', results).filter(({ id }) => id !== 'failed'),
    ...faults.map(({ id, readback }) => ({ kind: 'faults' as const, id, readback })),
    ...named('sides', sides),
    { kind: 'pain', id: 'words', readback: pain.readback },
    { kind: 'pain', id: 'none', readback: pain.none.say[0] ?? '' },
    ...COMMANDS.flatMap((id) =>
      AS_THEY_ARE.includes(id) || id === 'go-to'
        ? []
        : named('commands', { [id]: commands[id as keyof typeof commands] }),
    ),
    ...named('redFlags', redFlags),
  ];
}

/** What a reply of this name says. */
export function replyNamed({ kind, id }: ReplyName): Partial<Reply> {
  switch (kind) {
    case 'results':
      return { result: id as NonNullable<Reply['result']> };
    case 'faults':
      return { faults: [id] };
    case 'commands':
      return { command: id as NonNullable<Reply['command']> };
    case 'sides':
      return { side: id as NonNullable<Reply['side']> };
    case 'pain':
      return id === 'none' ? { pain: 0 } : { result: 'pain' };
    case 'redFlags':
      return { redFlag: id as NonNullable<Reply['redFlag']> };
  }
}

/** Whether a reply says just this, and nothing that the name does not. */
export function saysJust(reply: Reply, name: ReplyName): boolean {
  const wanted: Reply = { ...NO_REPLY, ...replyNamed(name) };
  // A fault settles its result; nobody names it.
  const settled = wanted.faults.length > 0 ? { ...wanted, result: reply.result } : wanted;
  return Object.entries(settled).every(
    ([field, value]) => JSON.stringify(reply[field as keyof Reply]) === JSON.stringify(value),
  );
}

/** The words as the grammar spells them; no signs, hyphens parted. */
export const plainWords = (text: string): string =>
  wordsOf(text)
    .words.map((word) => word.text)
    .join(' ');

/**
 * The book with a coach's own words: heard, and understood when typed, as the book's are. Words for
 * a reply that the book does not have are left out.
 */
export function withOwnWords(book: CueBook, own: OwnWords[]): CueBook {
  if (own.length === 0) return book;
  const vocabulary = own.reduce(reworded, book.vocabulary);
  return { ...book, vocabulary };
}

function reworded(vocabulary: Vocabulary, { kind, id, words }: OwnWords): Vocabulary {
  const more = <W extends Ways>(ways: W): W => ({ ...ways, say: [...ways.say, words] });
  if (kind === 'faults')
    return {
      ...vocabulary,
      faults: vocabulary.faults.map((fault) => (fault.id === id ? more(fault) : fault)),
    };
  const group = vocabulary[kind] as Record<string, Ways>;
  const ways = Object.hasOwn(group, id) ? group[id] : undefined;
  return ways === undefined
    ? vocabulary
    : { ...vocabulary, [kind]: { ...group, [id]: more(ways) } };
}

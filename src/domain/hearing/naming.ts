import type { Area } from '../areas';
import type { CueBook } from '../script';
import { phrasesOf } from './patterns';

/** Ids by the words that may name them, in the order of how surely they do. */
type Names = Map<string, Set<string>>[];

const known = new WeakMap<CueBook, Names>();

function gather(book: CueBook): Names {
  const [whole, others, parts, kinds]: Names = [new Map(), new Map(), new Map(), new Map()];
  const add = (names: Names[number] | undefined, phrase: string, id: string) =>
    names?.set(phrase, (names.get(phrase) ?? new Set()).add(id));
  for (const { id, name } of [...Object.values(book.checks), ...Object.values(book.drills)]) {
    const written = writtenNames(book, id, name);
    for (const phrase of written) add(whole, phrase, id);
    for (const phrase of otherNames(book, id)) add(others, phrase, id);
    for (const phrase of written.flatMap((each) => partsOf(book, each))) add(parts, phrase, id);
    const kind = bareName(book, name)
      .split(' ')
      .at(book.vocabulary.goTo.kindStands === 'last' ? -1 : 0);
    if (kind !== undefined && id in book.drills) add(kinds, kind, id);
  }
  return [whole, others, parts, kinds].map((names) => names ?? new Map());
}

/** Two or more words of a name, in their order: "front rack" of "front rack squat". */
function partsOf(book: CueBook, name: string): string[] {
  const { joiners } = book.vocabulary.goTo;
  const words = name.split(' ').filter((word) => !joiners.includes(word));
  const some = words.reduce<string[][]>(
    (lists, word) => [...lists, ...lists.map((list) => [...list, word])],
    [[]],
  );
  return some.filter(({ length }) => length > 1).map((list) => list.join(' '));
}

/** The name as written, without its article. */
function bareName(book: CueBook, name: string): string {
  const written = name
    .toLowerCase()
    .replaceAll('-', ' ')
    .replace(/[^\p{L}\d' ]/gu, '');
  return written.replace(/^(\S+) /, (first, article: string) =>
    book.vocabulary.goTo.articles.includes(article) ? '' : first,
  );
}

const writtenNames = (book: CueBook, id: string, name: string): string[] => [
  bareName(book, name),
  ...(book.vocabulary.goTo.idsAreNames ? [id.replaceAll('-', ' ')] : []),
];

const otherNames = (book: CueBook, id: string): string[] =>
  (book.vocabulary.goTo.names[id] ?? []).flatMap(phrasesOf);

/** What the recogniser listens for: the name, the id in words, and the other names. */
export const namesOf = (book: CueBook, id: string, name: string): string[] => [
  ...new Set([...writtenNames(book, id, name), ...otherNames(book, id)]),
];

/**
 * Ids of the checks and drills that words may name: one where they are clear, several where it
 * has to be asked (those of the area at hand alone, where there are some), none where nothing is
 * named. A whole name goes before another name, that before a part of a name ("front rack") and
 * that before the kind of a drill ("press"); `wholeOnly` takes no part and no kind.
 */
export function targetsOf(
  book: CueBook,
  words: string,
  area: Area | null,
  wholeOnly: boolean,
): string[] {
  const names = known.get(book) ?? gather(book);
  known.set(book, names);
  const meant = names
    .slice(0, wholeOnly ? 2 : 4)
    .find((ids) => ids.has(words))
    ?.get(words);
  const ids = [...(meant ?? [])];
  const near = ids.filter((id) => (book.checks[id] ?? book.drills[id])?.area === area);
  return near.length > 0 ? near : ids;
}

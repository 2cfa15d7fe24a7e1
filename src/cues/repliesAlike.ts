import { AREAS } from '../domain/areas';
import { phrasesOf } from '../domain/hearing/patterns';
import type { Ways } from '../domain/hearing/vocabulary';
import type { CueBook } from '../domain/script';
import type { Problem } from './problem';
import type { Sources } from './reading';
import { soundingAlike, type Lexicon, type SpokenReply } from './soundingAlike';
import type { FieldPath } from './sourceFile';

interface PlacedReply extends SpokenReply {
  path: FieldPath;
}

/**
 * Replies that may be given at one prompt, mean different things and sound too alike. Numbers
 * are left out: fifteen and fifty cannot be worded otherwise, and are read back.
 */
export function alikeProblems(
  sources: Sources,
  book: CueBook,
  lexiconFor: (words: string[]) => Lexicon,
): Problem[] {
  const said = AREAS.map((area) => repliesOf(book, area));
  const words = [...new Set(said.flat().flatMap((reply) => reply.words.split(' ')))].sort();
  let lexicon: Lexicon;
  try {
    lexicon = lexiconFor(words);
  } catch (error) {
    const problem = error instanceof Error ? error.message : 'has words without pronunciation';
    return [sources.vocabulary.problemAt([], problem)];
  }
  const problems = said.flatMap((replies) =>
    soundingAlike(replies, lexicon).map(({ one, other }) =>
      sources.vocabulary.problemAt(
        replies.find((reply) => reply === other)?.path ?? [],
        `"${other.words}" (${other.meaning}) sounds too much like "${one.words}" (${one.meaning}); word one of them otherwise`,
      ),
    ),
  );
  const seen = new Set<string>();
  return problems.filter(({ field, problem }) => {
    const key = `${field} ${problem}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Every reply that may be open at a prompt of this area, as it may be spoken. */
export function repliesOf({ vocabulary }: CueBook, area: (typeof AREAS)[number]): PlacedReply[] {
  const { commands, results, sides, same, faults, pain, redFlags } = vocabulary;
  return [
    ...group('commands', commands),
    ...group('results', results),
    ...group('sides', sides),
    ...placed(['same'], 'same', same),
    ...group('redFlags', redFlags),
    ...placed(['pain', 'words'], 'pain', pain.words),
    ...placed(['pain', 'none'], 'no pain', pain.none),
    ...faults.flatMap((fault, index) =>
      fault.areas.includes(area) ? placed(['faults', index], fault.id, fault) : [],
    ),
  ];
}

const group = (name: string, ways: Record<string, Ways>): PlacedReply[] =>
  Object.entries(ways).flatMap(([id, way]) => placed([name, id], id, way));

const placed = (path: FieldPath, meaning: string, { say }: Ways): PlacedReply[] =>
  say.flatMap((pattern, index) =>
    phrasesOf(pattern).map((words) => ({ words, meaning, path: [...path, 'say', index] })),
  );

import type { CueBook } from '../domain/script';
import { join } from './joining';
import { CueError } from './problem';
import { everySource, readSources } from './reading';
import { referenceProblems } from './references';

export { CueError, type Problem } from './problem';

/**
 * Reads every script of a language (`folder` is scripts-cues) and joins them to one book. Throws
 * CueError, with every problem found, where a file is broken or names something that is not
 * there, or where the language is unknown; `checkFolder` finds more.
 */
export function loadBook(folder: string, language: string): CueBook {
  const sources = readSources(folder, language);
  const broken = everySource(sources).flatMap(({ problems }) => problems);
  const book = join(sources, language);
  if (broken.length > 0 || book === null) throw new CueError(broken);
  const problems = referenceProblems(sources, book);
  if (problems.length > 0) throw new CueError(problems);
  return book;
}

import { secondsOf } from '../domain/pacing/duration';
import type { CueBook } from '../domain/script';
import table from './durations.json' with { type: 'json' };
import { hearingProblems } from './heardByItself';
import { join } from './joining';
import { CueError, type Problem } from './problem';
import { reachabilityProblems } from './reachability';
import { everySource, readSources, type Sources } from './reading';
import { referenceProblems } from './references';
import { alikeProblems } from './repliesAlike';
import type { Lexicon } from './soundingAlike';
import { spokenTexts } from './spoken';
import { problemWhere } from './where';

/** A cue lasts less than this: browsers' voices die in longer ones, and nobody keeps them in mind. */
export const LONGEST_CUE_SECONDS = 10;
/** A count fills its second at most, or it would run into the next. */
const LONGEST_COUNT_SECONDS = 1;

/**
 * Everything wrong with the scripts of a language, empty where nothing is: what `loadBook` refuses,
 * and cues that last too long or that the ear could take for a reply, drills and rungs that nobody
 * comes to, and, where `lexiconFor` is given, replies that sound too alike. Never throws for what
 * is in the files.
 */
export function checkFolder(
  folder: string,
  language: string,
  lexiconFor?: (words: string[]) => Lexicon,
): Problem[] {
  let sources: Sources;
  try {
    sources = readSources(folder, language);
  } catch (error) {
    if (error instanceof CueError) return error.problems;
    throw error;
  }
  const broken = everySource(sources).flatMap(({ problems }) => problems);
  const book = join(sources, language);
  // What follows judges the book as a whole; half a book would be blamed for what is missing.
  if (broken.length > 0 || book === null) return broken;
  const unknown = referenceProblems(sources, book);
  if (unknown.length > 0) return unknown;
  return [
    ...lengthProblems(sources, book),
    ...reachabilityProblems(sources, book),
    ...hearingProblems(sources, book),
    ...(lexiconFor === undefined ? [] : alikeProblems(sources, book, lexiconFor)),
  ];
}

function lengthProblems(sources: Sources, book: CueBook): Problem[] {
  return spokenTexts(book).flatMap(({ text, at }) => {
    const seconds = secondsOf(table, text);
    const isCount = at.kind === 'line' && at.key.startsWith('count.');
    const most = isCount ? LONGEST_COUNT_SECONDS : LONGEST_CUE_SECONDS;
    if (seconds < most) return [];
    const problem = `takes ${seconds.toFixed(1)} s to say; less than ${most} s is allowed`;
    return [problemWhere(sources, at, problem)];
  });
}

import { secondsOf } from '../domain/pacing/duration';
import { LONGEST_CUE_SECONDS } from '../domain/pacing/line';
import type { CueBook } from '../domain/script';
import { hearingProblems } from './heardByItself';
import { join } from './joining';
import { durationsOf } from './durationsOf';
import { hasPhones, OWN_LANGUAGE } from './languages';
import { linesMissing } from './linesMissing';
import { CueError, type Problem } from './problem';
import { reachabilityProblems } from './reachability';
import { everySource, languagesOf, readSources, type Sources } from './reading';
import { referenceProblems } from './references';
import { alikeProblems } from './repliesAlike';
import type { Lexicon } from './soundingAlike';
import { spokenTexts } from './spoken';
import { problemWhere } from './where';

/** A count fills its second at most, or it would run into the next. */
const LONGEST_COUNT_SECONDS = 1;

/**
 * What is wrong with the scripts of a language, empty where nothing is: what `loadBook` refuses;
 * else cues that last too long, and drills and rungs that nobody comes to; else cues that the ear
 * could take for a reply and, where `lexiconFor` is given and knows the language, replies that
 * sound too alike. Never throws for what is in the files.
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
  const misfits = [
    ...missingProblems(folder, language, sources),
    ...lengthProblems(sources, book),
    ...reachabilityProblems(sources, book),
  ];
  // What is heard takes seconds to find out, so it comes once the rest is right.
  if (misfits.length > 0) return misfits;
  return [
    ...hearingProblems(sources, book),
    ...(lexiconFor === undefined || !hasPhones(language)
      ? []
      : alikeProblems(sources, book, lexiconFor)),
  ];
}

/** The first language is the measure of what the others must say. */
function missingProblems(folder: string, language: string, sources: Sources): Problem[] {
  if (language === OWN_LANGUAGE || !languagesOf(folder).includes(OWN_LANGUAGE)) return [];
  return linesMissing(sources, readSources(folder, OWN_LANGUAGE), OWN_LANGUAGE);
}

function lengthProblems(sources: Sources, book: CueBook): Problem[] {
  const table = durationsOf(book.language);
  return spokenTexts(book).flatMap(({ text, at }) => {
    const seconds = secondsOf(table, text);
    const isCount = at.kind === 'line' && at.key.startsWith('count.');
    const most = isCount ? LONGEST_COUNT_SECONDS : LONGEST_CUE_SECONDS;
    if (seconds < most) return [];
    const problem = `takes ${seconds.toFixed(1)} s to say; less than ${most} s is allowed`;
    return [problemWhere(sources, at, problem)];
  });
}

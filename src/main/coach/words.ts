import { callWordProblems } from '../../cues/callWord';
import { ownWordsProblem } from '../../cues/ownWordsProblem';
import { plainWords, type ReplyName } from '../../domain/hearing/coachWords';
import { lexiconFor } from '../../ear/lexicon';
import type { Coach } from './coach';

/** Takes words of the coach's own for a reply; null once they count, else why not. */
export function takeOwnWords(coach: Coach, { kind, id }: ReplyName, typed: string): string | null {
  const words = { kind, id, words: plainWords(typed) };
  const problem = ownWordsProblem(coach.book(), words, lexiconFor);
  if (problem === null) coach.addWords(words, lexiconFor(words.words.split(' ')));
  return problem;
}

/** Takes a call word, or none for an empty text; null once it counts, else why not. */
export function takeCallWord(coach: Coach, typed: string): string | null {
  const word = plainWords(typed);
  if (word === '') {
    coach.setCallWord(null, {});
    return null;
  }
  const [problem] = callWordProblems(coach.book(), word, lexiconFor);
  if (problem !== undefined) return problem;
  coach.setCallWord(word, lexiconFor(word.split(' ')));
  return null;
}

import type { PromptId } from '../script';

/**
 * What can be heard at a prompt, as a directed acyclic graph of phrases: any path from state 0 to
 * a state in `finals` is an utterance. The recogniser scores its pronunciations and hands back the
 * words of the best path, so typed and spoken replies are understood by the same code.
 */
export interface Grammar {
  prompt: PromptId;
  states: number;
  finals: number[];
  /**
   * `words`: one or more lower-case words separated by single spaces. `means`: a name of what they
   * add to the meaning of the path; none where they add nothing.
   */
  arcs: { from: number; to: number; words: string; means?: string }[];
}

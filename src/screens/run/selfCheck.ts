import type { CueBook, PromptId } from '../../domain/script';

/** Whether an athlete alone is asked for a yes or a no there, which RULES.md, 15.5, takes as held or short. */
export const hasSelfCheck = (book: CueBook, prompt: PromptId): boolean =>
  prompt.startsWith('set/') && book.drills[prompt.slice('set/'.length)]?.selfCheck !== undefined;

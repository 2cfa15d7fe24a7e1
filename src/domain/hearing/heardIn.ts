import { DEFAULT_SETTINGS } from '../log';
import type { CueBook, PromptId } from '../script';
import type { Reply } from './reply';
import { understand } from './understanding';

/**
 * What a spoken text, heard at that prompt, would be taken for: commands, results, sides, faults
 * and numbers by name; empty where it is taken for nothing.
 */
export function repliesHeardIn(book: CueBook, prompt: PromptId, text: string): string[] {
  const { passLineDegrees, painGoesOnUpTo } = DEFAULT_SETTINGS;
  const { verdict, reply } = understand(book, prompt, text, {
    passLineDegrees,
    painGoesOnUpTo,
    confidence: 1,
  });
  return verdict === 'ignore' || reply === null ? [] : namesIn(reply);
}

const namesIn = (reply: Reply): string[] => {
  const { command, result, side, redFlag, painKind, pain, angleDegrees, faults } = reply;
  const named = [command, result, side, redFlag, painKind, ...faults].filter(
    (name) => name !== null,
  );
  const numbers = [
    ...(pain === null ? [] : [`pain ${pain}`]),
    ...(angleDegrees === null ? [] : [`${angleDegrees} degrees`]),
  ];
  return named.length + numbers.length > 0 ? [...named, ...numbers] : ['a reply'];
};

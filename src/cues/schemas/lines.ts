import { z } from 'zod';
import { fields } from './fields';

const sentence = z
  .string()
  .max(200, 'is too long to be one spoken idea: 200 characters at most')
  .regex(
    /^([^{}\n]|\{[a-z][\w-]*\})*$/,
    'must be one sentence; a placeholder is written {name}, without line breaks',
  );

/**
 * says.yaml, lines.yaml, outcome.yaml, group.yaml and homework.yaml: Sayso's own sentences by key. Those under `shown.` are
 * for the screen and the sheet alone, and are not held to the length and words of a cue.
 */
export const linesSchema = z.record(
  z
    .string()
    .regex(/^[a-z]+(\.[a-z0-9-]+)+$/, 'keys are written like say.waiting or because.step-back'),
  z.union(
    [
      sentence,
      fields({
        text: sentence,
        mayHear: z
          .array(z.string().min(1))
          .min(1)
          .describe('Replies this sentence must name although the ear could hear them'),
      }),
    ],
    { error: 'must be a sentence, or text with mayHear' },
  ),
);

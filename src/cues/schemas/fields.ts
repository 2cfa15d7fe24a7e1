import { z } from 'zod';
import { AREAS } from '../../domain/areas';
import { MOST_LETTERS } from '../../domain/spokenText';

/** An object that takes these fields and no others, and says which it takes. */
export const fields = <T extends z.ZodRawShape>(shape: T) =>
  z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `${(issue.keys as string[]).join(', ')}: not known here; allowed: ${Object.keys(shape).join(', ')}`
        : undefined,
  });

/** Lower-case words joined by hyphens: "bell-hinge". */
export const id = z
  .string()
  .regex(/^[a-z]+(-[a-z0-9]+)*$/, 'must be lower-case words joined by hyphens, like "bell-hinge"');

/** One sentence to be spoken: no line breaks, no braces. Its seconds are checked apart. */
export const spoken = z
  .string()
  .trim()
  .min(1, 'must not be empty')
  .max(MOST_LETTERS, `is too long to be one spoken idea: ${MOST_LETTERS} characters at most`)
  .regex(/^[^{}\n]*$/, 'must be one plain sentence, without { } or line breaks');

export const seconds = (from: number, to: number) =>
  z
    .number()
    .min(from, `must be ${from} to ${to} seconds`)
    .max(to, `must be ${from} to ${to} seconds`);

/** A line of a set-up, alone or with the time that it takes to do. */
export const setUpLine = z.union(
  [
    spoken,
    fields({
      text: spoken,
      thenSeconds: seconds(1, 30).describe('Time to do it; "ready" cuts it short'),
    }),
  ],
  { error: 'must be a sentence, or text with thenSeconds' },
);

export const area = z.enum(AREAS as readonly ['overhead', 'squat', 'hinge']);

export const count = (from: number, to: number) =>
  z
    .int(`must be a whole number, ${from} to ${to}`)
    .min(from, `must be a whole number, ${from} to ${to}`)
    .max(to, `must be a whole number, ${from} to ${to}`);

import { z } from 'zod';
import { fields } from '../cues/schemas/fields';

export { fields };

/** What names sessions, people, checks and the like. */
export const id = z
  .string()
  .regex(/^[\w.:/-]{1,200}$/, 'must be 1 to 200 letters, digits and . : / _ - without spaces');

/** ISO 8601 with offset. */
export const moment = z.iso.datetime({
  offset: true,
  error: 'must be a date and time with its offset, like "2031-03-01T09:00:00.000+01:00"',
});

export const between = (from: number, to: number) => {
  const say = `must be a number, ${from} to ${to}`;
  return z.number(say).min(from, say).max(to, say);
};

/** One of these, named in the message. */
export const oneOf = <const T extends readonly string[]>(those: T) =>
  z.enum(those, { error: `must be one of ${those.join(', ')}` });

/** Seconds of a session, or milliseconds since 1970, that a clock can show. */
export const SECONDS_MOST = 1e10;
export const MILLISECONDS_MOST = 8.64e15;

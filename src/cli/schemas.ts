import { z } from 'zod';
import { jsonSchemas } from '../cues/jsonSchemas';
import { entrySchema } from '../main/record/schema/entry';

/**
 * Every file scripts-cues/*.schema.json that is made of a schema which reads: those of the scripts,
 * and `entry.schema.json`, one entry of a session's log (of `entries` in what `rehearse --session`
 * writes).
 */
export const writtenSchemas = (): Record<string, object> => ({
  ...jsonSchemas(),
  'entry.schema.json': {
    title: 'An entry of the log of a session',
    ...z.toJSONSchema(entrySchema, { io: 'input', unrepresentable: 'any' }),
  },
});

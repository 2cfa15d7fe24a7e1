import { z } from 'zod';
import { jsonSchemas } from '../cues/jsonSchemas';
import { entrySchema } from '../schemas/entry';
import { recordFileSchema } from '../schemas/record';

/**
 * Every file scripts-cues/*.schema.json that is made of a schema which reads: those of the scripts,
 * `entry.schema.json`, one entry of a session's log (of `entries` in what `rehearse --session`
 * writes), and `record.schema.json`, a whole record as the app saves it.
 */
export const writtenSchemas = (): Record<string, object> => ({
  ...jsonSchemas(),
  'entry.schema.json': {
    title: 'An entry of the log of a session',
    ...jsonOf(entrySchema),
  },
  'record.schema.json': jsonOf(recordFileSchema),
});

function jsonOf(schema: z.ZodType): object {
  return z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' });
}

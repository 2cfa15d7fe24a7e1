import { z } from 'zod';
import type { Routine } from '../../domain/script';
import { area, fields, id, spoken } from './fields';

/** A file of scripts-cues/LANGUAGE/routines: what is run, in order. */
export const routineSchema = fields({
  id: id.describe('The name of the file, without .yaml'),
  name: spoken,
  ways: z.array(z.enum(['hands-on', 'alone', 'group'])).min(1, 'needs at least one way'),
  items: z
    .array(fields({ do: z.enum(['checks', 'ladder', 'retest']), area }))
    .min(1, 'needs at least one item'),
}) satisfies z.ZodType<Routine>;

import { z } from 'zod';
import type { Equipment } from '../../domain/script';
import { fields, id, spoken } from './fields';

/** equipment.yaml: everything that drills and checks need, by id. */
export const equipmentSchema = z.record(
  id,
  fields({
    name: spoken.describe('As spoken inside a sentence: "a kettlebell"'),
    orElse: spoken
      .describe('What does as well and is in every room; its lack then bars no drill')
      .optional(),
  }),
);

/** The table with each piece of equipment knowing its id. */
export const equipmentFrom = (
  written: z.infer<typeof equipmentSchema>,
): Record<string, Equipment> =>
  Object.fromEntries(Object.entries(written).map(([key, one]) => [key, { id: key, ...one }]));

import { z } from 'zod';
import { checksFileSchema } from './schemas/check';
import { drillSchema } from './schemas/drill';
import { equipmentSchema } from './schemas/equipment';
import { ladderSchema } from './schemas/ladder';
import { linesSchema } from './schemas/lines';
import { routineSchema } from './schemas/routine';
import { vocabularySchema } from './schemas/vocabulary';
import { warmUpSchema } from './schemas/warmUp';

const KINDS = {
  check: checksFileSchema,
  drill: drillSchema,
  equipment: equipmentSchema,
  ladder: ladderSchema,
  lines: linesSchema,
  routine: routineSchema,
  vocabulary: vocabularySchema,
  'warm-up': warmUpSchema,
};

/**
 * The files scripts-cues/*.schema.json, by name: what an editor needs to complete and check each
 * kind of script. Made from the schemas that read them, so there is one source.
 */
export const jsonSchemas = (): Record<string, object> =>
  Object.fromEntries(
    Object.entries(KINDS).map(([kind, schema]) => [
      `${kind}.schema.json`,
      z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }),
    ]),
  );

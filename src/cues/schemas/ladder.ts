import { z } from 'zod';
import type { Ladder } from '../../domain/script';
import { area, count, fields, id } from './fields';

/** A file of scripts-cues/LANGUAGE/ladders: the drills of one area in order of demand. */
export const ladderSchema = fields({
  area: area.describe('The name of the file, without .yaml'),
  rungs: z
    .array(fields({ drill: id, alternates: z.array(id).optional() }))
    .min(1, 'needs at least one rung'),
  entry: z
    .array(
      fields({
        rung: count(1, 20),
        checks: z.array(id).min(1, 'needs at least one check'),
        results: z
          .array(z.enum(['lost', 'short']))
          .min(1, 'needs lost, short or both')
          .describe('Both, where left out')
          .optional(),
        faults: z.array(id).min(1).describe('Any, where left out').optional(),
      }),
    )
    .min(1, 'needs at least one entry')
    .describe('The lowest rung of every entry that applies is where the ladder starts'),
}) satisfies z.ZodType<Ladder>;

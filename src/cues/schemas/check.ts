import { z } from 'zod';
import type { CheckScript } from '../../domain/script';
import { area, count, fields, id, seconds, setUpLine, spoken } from './fields';
import { breathingProblems, steps } from './step';

const checkSchema = fields({
  id: id.describe('Its name in prompts, ladders and the log'),
  name: spoken.describe('As spoken inside a sentence: "the unloaded hinge"'),
  sided: z.boolean().describe('Asked once a side'),
  loaded: z.boolean(),
  needsCoach: z.boolean().describe("Needs a coach's hands or eyes: alone it is not tested"),
  level: z
    .enum(['upper-arm'])
    .describe('Where a phone strapped on tells the angle of the hold, standing')
    .optional(),
  equipment: z.array(id).describe('Ids of equipment.yaml; one of them is enough'),
  setUp: z.array(setUpLine).min(1, 'needs at least one line').describe('One idea a line'),
  setUpAgain: z.array(setUpLine).describe('The shorter set-up of another try or the other side'),
  settleSeconds: seconds(0, 60).describe('Time to get into place; "ready" cuts it short'),
  reps: count(1, 5).describe('How often each reps step is done; once, where left out').optional(),
  steps,
  ask: spoken.describe('The question; it must not contain a reply'),
  faults: z.array(id).min(1, 'needs at least one fault'),
  caution: spoken,
}).superRefine((check, context) => {
  for (const { index, field, problem } of breathingProblems(check.steps, check)) {
    context.addIssue({ code: 'custom', path: ['steps', index, field], message: problem });
  }
});

/** A file of scripts-cues/LANGUAGE/checks: the checks of one area, in the order they are asked. */
export const checksFileSchema = fields({
  area,
  checks: z.array(checkSchema).min(1, 'needs at least one check'),
});

/** One check as written: its area stands once, above all checks of the file. */
type CheckWritten = z.infer<typeof checkSchema>;

export const checkFrom = (written: CheckWritten, of: CheckScript['area']): CheckScript => ({
  ...written,
  area: of,
});

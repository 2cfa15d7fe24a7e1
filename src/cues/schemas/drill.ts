import { z } from 'zod';
import type { DrillScript } from '../../domain/script';
import { area, count, fields, id, seconds, setUpLine, spoken } from './fields';
import { breathingProblems, steps } from './step';

const cue = fields({ cue: spoken });

/** A file of scripts-cues/LANGUAGE/drills: one corrective exercise. */
export const drillSchema = fields({
  id: id.describe('The name of the file, without .yaml'),
  area,
  name: spoken.describe('As spoken inside a sentence: "the bell hinge"'),
  sided: z.boolean().describe('One set is done on each side'),
  loaded: z.boolean().describe('Not done after pain'),
  aloneOnlyIfAllowed: z
    .boolean()
    .describe('Alone, only where the coach allowed it; false where left out')
    .optional(),
  equipment: z.array(id).describe('Ids of equipment.yaml; all of them are needed'),
  instead: z.array(spoken).describe('What else to use for it; the drill stays the same'),
  dose: fields({
    sets: count(1, 6),
    reps: count(1, 12).optional(),
    breaths: count(1, 6).describe('How often each exhale step is done').optional(),
  }),
  setUp: z.array(setUpLine).min(1, 'needs at least one line').describe('One idea a line'),
  setUpAgain: z.array(setUpLine).describe('The shorter set-up of every later set'),
  settleSeconds: seconds(0, 60).describe('Time to get into place; "ready" cuts it short'),
  steps,
  ask: spoken.describe('The question; it must not contain a reply'),
  selfCheck: spoken
    .describe('Asked in its place of an athlete alone, who can tell: yes is held, no is short')
    .optional(),
  good: spoken.describe('What good looks like; said where a set failed without a named fault'),
  fixes: z
    .array(fields({ fault: id, cue: spoken }))
    .min(1, 'needs one fix for each fault of the area')
    .describe('One fix for each fault of the area; the first that applies is the one said'),
  easier: fields({
    load: z.enum(['lighter', 'raised', 'shallower', 'unloaded']),
    cue: spoken,
  }).nullable(),
  heavier: cue.nullable(),
  loadGuidance: spoken,
  caution: spoken,
}).superRefine((drill, context) => {
  for (const { index, field, problem } of breathingProblems(drill.steps, drill.dose)) {
    context.addIssue({ code: 'custom', path: ['steps', index, field], message: problem });
  }
  if (drill.steps.some((step) => step.do === 'reps') && drill.dose.reps === undefined) {
    const message = 'is missing; the steps have reps, so their count is needed';
    context.addIssue({ code: 'custom', path: ['dose', 'reps'], message });
  }
}) satisfies z.ZodType<DrillScript>;

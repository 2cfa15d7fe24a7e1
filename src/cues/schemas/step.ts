import { z } from 'zod';
import { EXHALE_SECONDS, EXHALES_IN_A_ROW, NORMAL_BREATH_SECONDS } from '../../domain/pacing/line';
import type { CueStep } from '../../domain/script';
import { count, fields, seconds, spoken } from './fields';

/** Normal breaths after each run of long exhales (common practice, no source). */
export const NORMAL_BREATHS_AFTER = 2;

const exhaleSeconds = count(EXHALE_SECONDS.least, EXHALE_SECONDS.most).describe(
  'Whole seconds, counted aloud, so that nobody holds a breath',
);
const text = spoken.optional();

export const stepSchema = z.discriminatedUnion(
  'do',
  [
    fields({
      do: z.literal('say'),
      text: spoken,
      thenSeconds: seconds(1, 30).describe('Time to do it; "ready" cuts it short').optional(),
    }),
    fields({ do: z.literal('exhale'), seconds: exhaleSeconds, text }),
    fields({ do: z.literal('hold'), seconds: seconds(1, 30), text }),
    fields({
      do: z.literal('reps'),
      downSeconds: seconds(1, 8),
      upSeconds: seconds(1, 8),
      pauseAtKnee: fields({
        seconds: seconds(1, 5),
        on: z.array(z.enum(['down', 'up'])).min(1, 'needs down, up or both'),
        isBottom: z.boolean().optional(),
      }).optional(),
      exhaleSeconds: exhaleSeconds.optional(),
      breathsAtBottom: count(1, 4).optional(),
      text,
    }),
    fields({
      do: z.literal('rest'),
      seconds: seconds(1, 120),
      breaths: count(1, 10).optional(),
      text,
    }),
  ],
  { error: 'do must be one of say, exhale, hold, reps, rest' },
) satisfies z.ZodType<CueStep>;

export const steps = z.array(stepSchema).min(1, 'needs at least one step');

/** How many long exhales a step asks for, given the dose. */
const exhalesOf = (
  step: CueStep,
  dose: { reps?: number | undefined; breaths?: number | undefined },
) => {
  if (step.do === 'exhale') return dose.breaths ?? 1;
  return step.do === 'reps' && step.exhaleSeconds !== undefined ? (dose.reps ?? 1) : 0;
};

/**
 * What breaks the breathing rules, by index of the step: more than EXHALES_IN_A_ROW long exhales
 * without normal breaths between, or none after the last of them, or a rest too short for them.
 */
export function breathingProblems(
  all: CueStep[],
  dose: { reps?: number | undefined; breaths?: number | undefined },
): { index: number; field: string; problem: string }[] {
  const found: { index: number; field: string; problem: string }[] = [];
  let run = 0;
  let last = 0;
  all.forEach((step, index) => {
    const exhales = exhalesOf(step, dose);
    if (exhales > 0) last = index;
    run += exhales;
    if (exhales > 0 && run > EXHALES_IN_A_ROW) {
      const problem = `makes ${run} long exhales in a row; at most ${EXHALES_IN_A_ROW} are allowed, then a rest with breaths: ${NORMAL_BREATHS_AFTER}`;
      found.push({ index, field: 'do', problem });
    }
    if (step.do !== 'rest' || step.breaths === undefined) return;
    if (step.breaths >= NORMAL_BREATHS_AFTER) run = 0;
    if (step.seconds < step.breaths * NORMAL_BREATH_SECONDS) {
      const problem = `is too short for ${step.breaths} normal breaths; at least ${step.breaths * NORMAL_BREATH_SECONDS} seconds are needed`;
      found.push({ index, field: 'seconds', problem });
    }
  });
  if (run > 0 && run <= EXHALES_IN_A_ROW) {
    const problem = `is a long exhale with no rest of ${NORMAL_BREATHS_AFTER} normal breaths after it; add a rest with breaths: ${NORMAL_BREATHS_AFTER}`;
    found.push({ index: last, field: 'do', problem });
  }
  return found;
}

import type { Sex } from '../athlete';
import type { AngleTool } from '../findings';
import type { CheckId } from '../script';
import { FIGURES, valueOf, type FigureStatus } from './figures';
import { motionOf } from './motion';

export type Percentile = 'p5' | 'p50' | 'p95';

/** Where an angle lies among healthy young adults: from one percentile up to below the next. */
export interface NormBand {
  /** Null: below all that are published. */
  from: Percentile | null;
  /** Null: at or above all that are published. */
  below: Percentile | null;
}

/**
 * The tool of Vairo 2012. Its abstract says "standardized clinical" measures; that this is the
 * goniometer is from memory, so it only ever keeps the norm away from other tools.
 */
const TOOL: AngleTool = 'goniometer';

/** Where the norm comes from; the numbers were read in it, the tool is only remembered. */
export const NORM: {
  source: string;
  status: FigureStatus;
  tool: AngleTool;
  toolStatus: FigureStatus;
} = {
  source: FIGURES.flexionP50MaleDegrees.source,
  status: FIGURES.flexionP50MaleDegrees.status,
  tool: TOOL,
  toolStatus: 'from-memory',
};

const NORMS: Record<Sex, Record<Percentile, number>> = {
  male: {
    p5: valueOf(FIGURES.flexionP5MaleDegrees),
    p50: valueOf(FIGURES.flexionP50MaleDegrees),
    p95: valueOf(FIGURES.flexionP95MaleDegrees),
  },
  female: {
    p5: valueOf(FIGURES.flexionP5FemaleDegrees),
    p50: valueOf(FIGURES.flexionP50FemaleDegrees),
    p95: valueOf(FIGURES.flexionP95FemaleDegrees),
  },
};

/**
 * Where an angle lies among the percentiles of Vairo 2012 (active shoulder flexion, healthy young
 * adults): context, never a verdict. Null for any other check or tool, and where sex or angle is
 * not given.
 *
 * @example normBand('overhead-active-standing', 'goniometer', 'male', 150) // below p5
 */
export function normBand(
  check: CheckId | null,
  tool: AngleTool | null,
  sex: Sex | undefined,
  angleDegrees: number | null,
): NormBand | null {
  if (sex === undefined || angleDegrees === null) return null;
  if (motionOf(check) !== 'active' || tool !== TOOL) return null;
  const { p5, p50, p95 } = NORMS[sex];
  if (angleDegrees < p5) return { from: null, below: 'p5' };
  if (angleDegrees < p50) return { from: 'p5', below: 'p50' };
  if (angleDegrees < p95) return { from: 'p50', below: 'p95' };
  return { from: 'p95', below: null };
}

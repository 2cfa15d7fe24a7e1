import type { SessionSettings } from '../log';
import type { Homework } from '../reporting/homework';
import type { DrillId, EquipmentId } from '../script';
import type { Handover } from './handover';

/** Drills that the coach has to allow before they may be handed over (rules 11.5 and 13.7). */
export const toBeAllowed = (homework: readonly Homework[]): DrillId[] =>
  homework.filter(({ coach }) => coach === 'only-if-allowed').map(({ drill }) => drill);

/**
 * What is handed over of the homework of a session; null where nothing of it may be. A drill that
 * a coach has to allow alone goes along only where it is among `allowed`. `id`: 16 hex digits;
 * `madeAt`: ISO 8601 with offset.
 */
export function handoverOf(
  homework: readonly Homework[],
  allowed: readonly DrillId[],
  {
    settings: { painGoesOnUpTo, painRefersAbove },
    ...made
  }: {
    id: string;
    language: string;
    madeAt: string;
    missing: EquipmentId[];
    settings: Pick<SessionSettings, 'painGoesOnUpTo' | 'painRefersAbove'>;
  },
): Handover | null {
  const tasks = homework
    .filter(({ coach, drill }) => coach !== 'only-if-allowed' || allowed.includes(drill))
    .map(({ area, drill, rung, load }) => ({ area, drill, rung, load }));
  if (tasks.length === 0) return null;
  const allowedAlone = toBeAllowed(homework).filter((drill) => allowed.includes(drill));
  return { ...made, tasks, allowedAlone, painGoesOnUpTo, painRefersAbove };
}

/** What a coach hands over to an athlete who goes on alone: the homework, and nobody's name. */
import type { Area } from '../areas';
import type { Load } from '../findings';
import type { DrillId, EquipmentId } from '../script';

/** One drill to begin with; the ladder of its area says what may follow it. */
export interface HandoverTask {
  area: Area;
  drill: DrillId;
  /** Of the drill in its ladder, from 1. */
  rung: number;
  /** Never more than this, alone. */
  load: Load;
}

/** Everything that the athlete's device needs; it travels in a link, a code or a file. */
export interface Handover {
  /** 16 random hex digits: what comes back is told by them, since no name goes along. */
  id: string;
  /** Of the cues; codes such as `en`. */
  language: string;
  /** Wall time, ISO 8601 with offset. */
  madeAt: string;
  /** One to three, one an area, in the order they are done. */
  tasks: HandoverTask[];
  /** Equipment that is not there. */
  missing: EquipmentId[];
  /** Drills that the coach allowed alone. */
  allowedAlone: DrillId[];
  /** The bands of pain, 0 to 10, as the coach set them (RULES.md, chapter 1). */
  painGoesOnUpTo: number;
  painRefersAbove: number;
}

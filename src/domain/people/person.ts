/**
 * An athlete as the coach knows them. Names and notes live here and never in a log: entries name
 * a person by `id` alone, so that one can be erased while the entries stay whole.
 */
import type { AngleTool } from '../findings';
import type { Sex } from '../athlete';

export interface Person {
  /** Random; says nothing of who it is. */
  id: string;
  name: string;
  /** The squad they train with, or null. */
  squad: string | null;
  birthYear: number | null;
  sex: Sex | null;
  /** Barefoot. */
  statureMillimetres: number | null;
  /** From the floor to the middle of the kneecap, barefoot, measured. */
  kneeMillimetres: number | null;
  /** What their angles are usually read with. */
  angleTool: AngleTool | null;
  /** What to keep in mind beside the bar, in the coach's words; empty where there is nothing. */
  mindText: string;
  /** ISO date on which a minor's guardian agreed, as noted by the coach; null where none is noted. */
  guardianAgreedOn: string | null;
  /** Homework that was handed over to them, by id, newest last; none where left out. */
  handovers?: string[] | undefined;
  /** Of the invented club: leaves with it. */
  isInvented: boolean;
}

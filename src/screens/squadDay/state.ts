import type { Way } from '../../domain/areas';
import type { RedFlag } from '../../domain/findings';
import type { SquadDay } from '../../domain/people/squadDay';
import type { EquipmentId, RoutineId } from '../../domain/script';
import type { Wanted } from '../gate/toRun';

/** What is chosen once for all of a squad day. */
export interface SquadDayChoice {
  /** Ids of people, in their order. */
  people: string[];
  routine: RoutineId;
  way: Way;
  /** `hands`: by touch and keys alone; the microphone is not asked for. */
  listen: 'microphone' | 'hands';
  /** Equipment that is not in this gym. */
  missing: EquipmentId[];
}

/** A squad day: who is seen, one after the other. */
export interface SquadDayState {
  /**
   * `choosing`: who, and in which order; `kept`: under way, and nobody sees to it now; `between`:
   * the next one is waited for; `running`: a session runs; `over`: what came of it; `dropped`: what
   * was kept of one could not be read.
   */
  stage: 'choosing' | 'kept' | 'between' | 'running' | 'over' | 'dropped';
  /** Nobody in it until it begins. */
  day: SquadDay;
  /**
   * Between two: what the next word answers; `help`: the session before ended on a warning sign,
   * and that comes first; `sign`: one was said while no session ran.
   */
  asks: 'ready' | 'end' | 'help' | 'sign';
  /** What went wrong, and what to do; null where nothing did. */
  trouble: string | null;
  /** Warning signs that were said while no session ran, the last one last; none where left out. */
  signs?: readonly Sign[];
  /** What was chosen before something else was looked at; nothing where left out. */
  draft?: SquadDayDraft;
}

/** Who is ticked, in their order, and what is to be run. */
export interface SquadDayDraft {
  people: string[];
  wanted: Wanted;
}

/** A warning sign that was said while no session ran, and the visit on which it is noted. */
export interface Sign {
  /** Of the note. */
  id: string;
  person: string;
  session: string;
  flag: RedFlag;
  /** The words, as they were heard. */
  text: string;
  /** Wall time, ISO 8601 with offset. */
  writtenAt: string;
  /** They had a turn before it; else they were next. */
  hadTurn: boolean;
  /** The note is stored. */
  isNoted: boolean;
}

/** What a person may do on a squad day. */
export interface SquadDayHands {
  /** To choose who is to be seen, or to what came of the day. */
  show(): void;
  /** Keeps what is chosen while the microphone is checked. */
  keepDraft(draft: SquadDayDraft): void;
  /** Called inside a tap, so that sound, voice and microphone may be unlocked there. */
  begin(choice: SquadDayChoice): void;
  /** Goes on with those who are left, from a tap. */
  goOn(): void;
  /** Ends the day that is kept, and shows what came of it. */
  end(): void;
  /** Back to the list; a day that is over is forgotten, its sessions are not. */
  leave(): void;
}

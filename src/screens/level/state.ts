import type { LineProblem } from '../../domain/tilt/line';
import type { LevelOn, TiltTrouble } from '../../ports';

/** The phone as a level. */
export interface LevelState {
  /** What it is strapped to; null where it is not used. */
  on: LevelOn | null;
  /**
   * `opening`: the sensor is asked for; `ready`: it tells, and is to be set; `first`, `turning`,
   * `second`: the two steps; `set`: it is used in the next session.
   */
  stage: 'off' | 'opening' | 'ready' | 'first' | 'turning' | 'second' | 'set';
  /** Why it is not set; null where nothing is wrong. */
  trouble: TiltTrouble | LineProblem | null;
}

export const NO_LEVEL: LevelState = { on: null, stage: 'off', trouble: null };

/** What a person may do with it. */
export interface LevelHands {
  /** Asks for the sensor, inside a tap; null switches it off. */
  choose(on: LevelOn | null): void;
  /** Begins the two steps, spoken; each is taken by holding still. */
  set(): void;
  /** The limb lies as it should: takes the step now. */
  take(): void;
}

import type { RoutineId } from '../../domain/script';

/** A warm-up that can be led, and what it takes, seconds. */
export interface WarmUpOffer {
  id: RoutineId;
  name: string;
  seconds: number;
  /** It cannot be made to end sooner, or later. */
  leastSeconds: number;
  mostSeconds: number;
}

export interface WarmUpChoice {
  id: RoutineId;
  /** It ends after so many minutes; as written where null. */
  minutes: number | null;
  /** `hands`: nobody speaks to it, or by touch, keys and remote alone. */
  listen: 'microphone' | 'hands';
}

/** The turn that is on, as shown. */
export interface TurnShown {
  name: string;
  number: number;
  of: number;
  /** What comes after it; null where nothing does. */
  next: string | null;
}

/** A group that is led by one speaker. Nothing of it is kept, and nobody is named. */
export interface WarmUpState {
  stage: 'choosing' | 'running' | 'over';
  offers: WarmUpOffer[];
  /** The one that runs or ran. */
  chosen: WarmUpOffer | null;
  /** How it is led. */
  listen: WarmUpChoice['listen'];
  /** Null until the first turn. */
  turn: TurnShown | null;
  isHeld: boolean;
  /** "Stop" was heard, and whether to end is open. */
  asksEnd: boolean;
  /** Wall time, milliseconds since 1970; null where nothing was promised. */
  endsAtMilliseconds: number | null;
  /** How it ended. */
  ended: 'completed' | 'stopped' | 'red-flag' | null;
  /** What went wrong, and what to do; null where nothing did. */
  trouble: string | null;
}

/** What a leader may do. */
export interface WarmUpHands {
  /** To choose what is led. */
  show(): void;
  /** Called inside a tap, so that sound, voice and microphone may be unlocked there. */
  begin(choice: WarmUpChoice): void;
  /** Back to the people; one that runs ends without a word. */
  leave(): void;
}

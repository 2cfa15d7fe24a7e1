import type { RoutineId } from '../../domain/script';
import type { WarmUp } from '../../domain/warmUp/warmUp';

/** A warm-up that can be led, and what it takes, seconds. */
export interface WarmUpOffer {
  id: RoutineId;
  name: string;
  warmUp: WarmUp;
  /** Of the coach's own, kept on this device. */
  isOwn: boolean;
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
  stage: 'choosing' | 'building' | 'running' | 'over';
  offers: WarmUpOffer[];
  /** The one that stands chosen at first; the first offer where null. */
  wanted: RoutineId | null;
  /** What the builder begins from; without an id it is to be a new one. */
  building: WarmUp | null;
  /** How much of a sound file is made, 0 to 1; null where none is. */
  sound: number | null;
  /** What came of keeping, removing or saving; null where nothing did. */
  told: string | null;
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
export interface WarmUpHands extends OwnHands, SoundHands {
  /** To choose what is led. */
  show(): void;
  /** Called inside a tap, so that sound, voice and microphone may be unlocked there. */
  begin(choice: WarmUpChoice): void;
  /** Back to the people; one that runs ends without a word. */
  leave(): void;
}

/** What a coach may do with warm-ups of their own. Each tells why it was not done, else null. */
export interface OwnHands {
  /** How long a text takes to say at the usual pace, and how much slower a group is spoken to. */
  pace(): { secondsOf: (text: string) => number; stretch: number };
  /** Opens the builder with this; without an id it is a new one. */
  build(from: WarmUp): void;
  /** Out of the builder, with nothing kept. */
  leaveBuilder(): void;
  /** Keeps what was built on this device, and goes back to choose. */
  keep(warmUp: WarmUp): Promise<string | null>;
  remove(id: RoutineId): Promise<string | null>;
  /** A file of one warm-up, as `saveFile` writes it; it comes beside the others. */
  bringIn(file: File): Promise<string | null>;
  saveFile(warmUp: WarmUp): Promise<string | null>;
}

export interface SoundHands {
  /** Makes the whole of it one sound file; what came of it is told in the state. */
  saveSound(choice: Pick<WarmUpChoice, 'id' | 'minutes'>): Promise<void>;
  cancelSound(): void;
}

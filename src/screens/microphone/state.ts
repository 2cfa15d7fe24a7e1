import type { Room } from '../../domain/hearing/microphoneAdvice';
import type { ReplyHeard } from '../../session/microphoneCheck';
import type { MicrophoneResult } from '../../session/microphoneCheckMachine';

/** The microphone, as far as it was measured. */
export interface MicrophoneCheckState {
  /** How loud it is while nobody speaks; null until sound came in. */
  room: Room | null;
  /** What the last check said, and on which day, as this device keeps it; null where none was. */
  last: LastCheck | null;
  /** The check that runs or has run. */
  run: MicrophoneRun | null;
}

export interface LastCheck {
  /** ISO, the day alone. */
  date: string;
  words: string;
}

export interface MicrophoneRun {
  /** `deaf` and `failed`: the microphone, or the recogniser, is not there. */
  stage:
    | 'loading'
    | 'introducing'
    | 'walking'
    | 'room'
    | 'asking'
    | 'listening'
    | 'telling'
    | 'deaf'
    | 'hidden'
    | 'finished'
    | 'failed';
  /** What is to be said now. */
  line: string | null;
  /** It was not heard, and is asked for once more. */
  isAgain: boolean;
  /** No voice was found, so that lines are only shown. */
  isMute: boolean;
  /** It waited while the page was out of sight. */
  wasHidden: boolean;
  of: number;
  /** The replies so far. */
  heard: ReplyHeard[];
  result: (MicrophoneResult & { advised: Advised[] }) | null;
  /** What the check before came to. */
  before: MicrophoneResult | null;
}

/** Advice in words, with the reason. */
export interface Advised {
  to: MicrophoneResult['advice'][number]['to'];
  words: string;
  because: string;
}

/** What a person may do in the check of the microphone. */
export interface MicrophoneCheckHands {
  /** From a tap, at the gate, or where it failed. */
  begin(): void;
  /** Once more from where the coach stands now; what came of the last one is compared. */
  again(): void;
  /** Goes on at once: the coach stands where he will work, or the microphone is tried again. */
  goOn(): void;
  /** Back to the gate. */
  leave(): void;
}

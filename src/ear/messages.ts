import type { Grammar } from '../domain/hearing/grammar';
import type { PromptId } from '../domain/script';
import type { EarTrouble, Hearing } from '../ports';
import type { CoachEar } from './coach/coachEar';
import type { LevelReport } from './levels';
import type { Lexicon } from './lexicon';
import type { EarSize, WhySmall } from './sizes';

/** To the worker. It answers to nothing else before `start`. */
export type ToEarWorker =
  | {
      type: 'start';
      /** Where the folder `ear/` with the models lies, ending in a slash. */
      assetsBase: string;
      lexicon: Lexicon;
      urgent: string[];
    }
  /** The grammar comes with the first attending of its prompt. */
  | { type: 'attend'; prompt: PromptId; grammar: Grammar | null }
  /** Heard as this coach's from now on; grammars come anew with their next attending. */
  | { type: 'fit'; coach: CoachEar; lexicon: Lexicon }
  /** Sound will come through this port, as Float32Array pieces. */
  | { type: 'microphone'; port: MessagePort; sampleRate: number }
  /** Sound that is not from the microphone. */
  | { type: 'sound'; samples: Float32Array; sampleRate: number };

export type FromEarWorker =
  | { type: 'loading'; fraction: number }
  /** From now on it hears. */
  | { type: 'ready' }
  /** Which size hears from now on; `why`: what keeps the small one, once it is known to stay. */
  | { type: 'hears-with'; size: EarSize; why: WhySmall | null }
  | { type: 'failed'; why: EarTrouble; detail: string }
  /** `utterance` numbers the pieces of speech, so that one told twice is taken once. */
  | { type: 'heard'; utterance: number; hearing: Hearing }
  | { type: 'level'; report: LevelReport };

import type { Grammar } from '../../domain/hearing/grammar';
import type { CoachEar } from '../coach/coachEar';
import type { Lexicon } from '../lexicon';
import type { Look, LookHow } from '../recognising';
import type { WhySmall } from '../sizes';

/** Sent whole the first time, and by its number from then on. */
export interface Numbered<Thing> {
  number: number;
  thing?: Thing;
}

/** To the worker of the strong ear. */
export type ToStrongWorker =
  /** Where the folder `ear/` with the models lies, ending in a slash. */
  | { type: 'start'; assetsBase: string }
  /** Looks from now on are by this coach's ear; what was numbered comes anew. */
  | { type: 'fit'; coach: CoachEar }
  | {
      type: 'look';
      look: number;
      samples: Float32Array;
      grammar: Numbered<Grammar>;
      lexicon: Numbered<Lexicon>;
      how: LookHow;
    };

export type FromStrongWorker =
  /** From now on it answers looks, and keeps up with the sound. */
  | { type: 'ready' }
  /** It does not hear, or hears no longer. */
  | { type: 'gone'; why: WhySmall }
  | { type: 'looked'; look: number; found: Look }
  | { type: 'not-looked'; look: number; detail: string };

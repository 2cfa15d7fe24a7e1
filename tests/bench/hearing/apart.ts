import type { CueBook } from '../../../src/domain/script';
import type { HumanPhrase } from '../../sounds/human';
import type { Speaker } from '../../sounds/speakers';
import { chromiumPart } from './browser/part';
import { coachPart } from './coachFit';
import type { Goal } from './goals';
import { nextRackPart } from './nextRack';
import type { SoundRoom } from './sounding';
import { whyPart } from './why';

/** What a part that is no heap of jobs has to work with. */
export interface Stage {
  book: CueBook;
  speakers: Speaker[];
  human: HumanPhrase[];
  sounds: SoundRoom;
  seed: number;
  /** 1: all of it. */
  share: number;
}

/** What came of it. */
export interface Apart {
  /** Printed as JSON, one a line. */
  figures: object[];
  goals: Goal[];
  /** The same for a person to read. */
  shown: string;
}

/** Parts of the bench that measure in their own way, by name; they run alone, one by one. */
export const APART: Record<string, (stage: Stage) => Promise<Apart>> = {
  browser: chromiumPart,
  coach: coachPart,
  rack: nextRackPart,
  why: whyPart,
};

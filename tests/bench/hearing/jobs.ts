import type { PromptId } from '../../../src/domain/script';
import type { Following } from '../../../src/ear/meaning';
import type { Half, Spoken } from '../../sounds/speakers';
import type { Wanted } from './replies';

/** One noise at one loudness, or none; decibels below the speech. */
export interface Condition {
  name: string;
  noise: string | null;
  decibels: number | null;
  reverb: boolean;
}

/** One reply in one surrounding, heard by every ear of the job. */
export interface ReplyJob {
  kind: 'reply';
  part: 'replies' | 'urgent' | 'corpus';
  half: Half;
  condition: Condition;
  wanted: Wanted;
  /** Whether the prompt's grammar has these words at all; only typed text can be any. */
  isInGrammar: boolean;
  spoken: Spoken;
  seed: number;
  ears: EarName[];
}

/** About a minute of other speech without an end of it, heard at a question and at idle. */
export interface TalkJob {
  kind: 'talk';
  source: 'human' | 'gym talk' | 'own cues' | 'next rack';
  pieces: (Spoken | { path: string })[];
  decibels: number;
  prompts: PromptId[];
  seed: number;
  ears: EarName[];
}

/** The same reply a thousand times; what the process then holds more. */
export interface MemoryJob {
  kind: 'memory';
  replies: number;
  spoken: Spoken;
}

export type Job = ReplyJob | TalkJob | MemoryJob;

export const EARS = [
  'ours',
  'ours, log-mel alone',
  'constrained decoder',
  'free decoder',
  'pocketsphinx',
] as const;
export type EarName = (typeof EARS)[number] | 'deaf';

/** Our ear in either size; they hear everything, the others some of it. */
export const isOurOwn = (ear: EarName) => ear.startsWith('ours');

/** How a reply came out; `asked-wrong` offered something else, which costs a "no". */
export type Outcome = 'accepted' | 'asked' | 'asked-wrong' | 'wrong' | 'missed';

/** What one ear made of one job. */
export type Answer =
  | {
      kind: 'reply';
      ear: EarName;
      outcome: Outcome;
      heard: string;
      confidence: number;
      /** Of a missed reply: how far it came. */
      why: string | null;
      /** End of speech to the reply, as if the sound came in as it was spoken. */
      delayMilliseconds: number | null;
      /** The part of it that waits for sound, without any computing. */
      waitMilliseconds: number | null;
      lookMilliseconds: number[];
      /** What the grammar lets follow the words that settled it: what was waited for. */
      following: Following | null;
    }
  | {
      kind: 'talk';
      ear: EarName;
      at: 'question' | 'idle';
      seconds: number;
      accepted: string[];
      asked: string[];
    }
  | { kind: 'memory'; ear: EarName; replies: number; grownMegabytes: number; megabytes: number };

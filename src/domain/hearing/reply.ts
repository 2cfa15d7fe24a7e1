import type { Side } from '../areas';
import type { FaultId } from '../faults';
import type { PainKind, RedFlag, Result } from '../findings';

export const COMMANDS = [
  'stop',
  'pause',
  'resume',
  'repeat',
  'next',
  'back',
  'undo',
  'skip',
  'ready',
  'rep',
  'done',
  'again',
  'help',
  'louder',
  'quieter',
  'slower',
  'faster',
  'fewer-words',
  'more-words',
  'lighter',
  'heavier',
  'yes',
  'no',
  'time-left',
  'next-person',
  'go-to',
] as const;
export type Command = (typeof COMMANDS)[number];

/** What somebody meant; every field null or empty where it was not said. */
export interface Reply {
  command: Command | null;
  /** Of `go-to`: a check or drill id. */
  target: string | null;
  side: Side | 'both' | null;
  result: Result | null;
  faults: FaultId[];
  angleDegrees: number | null;
  /** 0 to 10; null with result `pain` is pain without a number. */
  pain: number | null;
  painKind: PainKind | null;
  redFlag: RedFlag | null;
  /** "Same on the right": the finding of the other side again, which only a log can tell. */
  same: boolean;
}

export const NO_REPLY: Reply = {
  command: null,
  target: null,
  side: null,
  result: null,
  faults: [],
  angleDegrees: null,
  pain: null,
  painKind: null,
  redFlag: null,
  same: false,
};

/** `accept`: act; `confirm`: offer `reply` and ask; `ignore`: not meant for Sayso. */
export type Verdict = 'accept' | 'confirm' | 'ignore';

/** What a reading leaves open: how it failed, whether no fault is a pass, its grade, or which side. */
export type Asks = 'limited-or-lost' | 'pass' | 'grade' | 'one-side';

/** Of two readings that were offered together. */
export type Choice = 'first' | 'second';

/** One utterance understood at one prompt. `reply` and `readback` are null when ignored. */
export interface Reading {
  heard: string;
  verdict: Verdict;
  reply: Reply | null;
  /** 0 to 1. */
  confidence: number;
  /** At most four words where it can be, never dropping side, result or fault. */
  readback: string | null;
  /** A question of its own that would complete the reply; with `pass` a yes makes it held. */
  asks?: Asks;
  /** What was said of the other side in the same breath ("left limited, right pass"). */
  and?: Reply;
  /** Another reading of the same sound, where both are to be offered ("pain, or fail?"). */
  other?: Reading;
  /** At `confirm`: which of two that were offered. */
  picks?: Choice;
  /** At `confirm`: a "no" led it, so it replaces what was offered wrongly ("no, one fifty"). */
  corrects?: true;
}

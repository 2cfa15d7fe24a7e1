import jstat from 'jstat';
import { proportionOf } from '../../../src/domain/measuring/proportion';
import type { Following } from '../../../src/ear/meaning';
import type { ConfusionFigure } from './confusions';
import type { Answer, EarName, Job, Outcome, ReplyJob } from './jobs';

/** A share in percent with Wilson's 95 % interval. */
export interface Share {
  count: number;
  percent: number;
  from: number;
  to: number;
}

/** How the replies of one group came out for one ear. */
export interface ReplyFigure {
  figure: 'replies';
  part: ReplyJob['part'];
  ear: string;
  half: string;
  condition: string;
  n: number;
  /** Accepted right, or asked about right: what the goals count. */
  right: Share;
  accepted: Share;
  asked: Share;
  askedWrong: Share;
  wrong: Share;
  missed: Share;
}

/** What was taken from other speech. */
export interface TalkFigure {
  figure: 'other speech';
  ear: string;
  source: string;
  at: 'question' | 'idle';
  hours: number;
  accepted: number;
  acceptedAnHour: number;
  /** Exact Poisson bound that 95 % of such counts stay below. */
  acceptedAnHourAtMost: number;
  askedAnHour: number;
  heard: string[];
}

export interface TimeFigure {
  figure: 'milliseconds';
  ear: string;
  what: string;
  n: number;
  median: number;
  percentile95: number;
}

export interface MemoryFigure {
  figure: 'memory';
  ear: string;
  replies: number;
  grownMegabytes: number;
  megabytes: number;
}

/** One reply that was not heard right, for whoever works on the ear. */
export interface Mishearing {
  figure: 'misheard';
  part: string;
  half: string;
  condition: string;
  voice: string;
  prompt: string;
  said: string;
  heard: string;
  outcome: Outcome;
  why: string | null;
}

/** How far the missed replies of a condition came. */
export interface MissedFigure {
  figure: 'missed';
  ear: string;
  half: string;
  condition: string;
  n: number;
  why: Record<string, number>;
}

export type Figure =
  | ReplyFigure
  | TalkFigure
  | TimeFigure
  | MemoryFigure
  | Mishearing
  | MissedFigure
  | ConfusionFigure;
export type Done = { job: Job; answers: Answer[] }[];

export const tenth = (value: number) => Math.round(value * 10) / 10;

export function shareOf(count: number, total: number): Share {
  const { from, to } = proportionOf(count, total);
  return {
    count,
    percent: tenth((100 * count) / total),
    from: tenth(100 * from),
    to: tenth(100 * to),
  };
}

/** Highest rate an hour that the count allows, one-sided 95 % (exact, by the chi-square inverse). */
export const rateAtMost = (count: number, hours: number): number =>
  jstat.chisquare.inv(0.95, 2 * (count + 1)) / 2 / hours;

/** One reply as one ear heard it. */
export interface Heard {
  job: ReplyJob;
  ear: EarName;
  outcome: Outcome;
  heard: string;
  why: string | null;
  delayMilliseconds: number | null;
  waitMilliseconds: number | null;
  lookMilliseconds: number[];
  following: Following | null;
}

export const heardOf = (done: Done): Heard[] =>
  done.flatMap(({ job, answers }) =>
    job.kind !== 'reply'
      ? []
      : answers.flatMap((answer) => (answer.kind === 'reply' ? [{ ...answer, job }] : [])),
  );

export function grouped<T>(all: T[], keyOf: (each: T) => string): [string, T[]][] {
  const groups = new Map<string, T[]>();
  for (const each of all) {
    const key = keyOf(each);
    const group = groups.get(key);
    if (group) group.push(each);
    else groups.set(key, [each]);
  }
  return [...groups];
}

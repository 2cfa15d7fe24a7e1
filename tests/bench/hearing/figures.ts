import jstat from 'jstat';
import { proportionOf } from '../../../src/domain/measuring/proportion';
import type { Answer, EarName, Job, Outcome, ReplyJob, TalkJob } from './jobs';
import { isSingle, kindOf } from './replies';

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
  ReplyFigure | TalkFigure | TimeFigure | MemoryFigure | Mishearing | MissedFigure;
export type Done = { job: Job; answers: Answer[] }[];

const tenth = (value: number) => Math.round(value * 10) / 10;

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

interface Heard {
  job: ReplyJob;
  ear: EarName;
  outcome: Outcome;
  heard: string;
  why: string | null;
  delayMilliseconds: number | null;
  waitMilliseconds: number | null;
  lookMilliseconds: number[];
}

const heardOf = (done: Done): Heard[] =>
  done.flatMap(({ job, answers }) =>
    job.kind !== 'reply'
      ? []
      : answers.flatMap((answer) => (answer.kind === 'reply' ? [{ ...answer, job }] : [])),
  );

function grouped<T>(all: T[], keyOf: (each: T) => string): [string, T[]][] {
  const groups = new Map<string, T[]>();
  for (const each of all) {
    const key = keyOf(each);
    const group = groups.get(key);
    if (group) group.push(each);
    else groups.set(key, [each]);
  }
  return [...groups];
}

function replyFigure(
  part: ReplyJob['part'],
  ear: string,
  half: string,
  condition: string,
  all: Heard[],
): ReplyFigure {
  const of = (...outcomes: Outcome[]) =>
    shareOf(all.filter(({ outcome }) => outcomes.includes(outcome)).length, all.length);
  return {
    figure: 'replies',
    part,
    ear,
    half,
    condition,
    n: all.length,
    right: of('accepted', 'asked'),
    accepted: of('accepted'),
    asked: of('asked'),
    askedWrong: of('asked-wrong'),
    wrong: of('wrong'),
    missed: of('missed'),
  };
}

/** The groups that the goals speak of, beside each condition by itself. */
const POOLED: [string, (job: ReplyJob) => boolean][] = [
  ['all at 20 dB', ({ condition }) => isNoise(condition, 20)],
  ['all at 10 dB', ({ condition }) => isNoise(condition, 10)],
  ['all at 5 dB', ({ condition }) => isNoise(condition, 5)],
  ['all', () => true],
];
const isNoise = ({ noise, decibels }: ReplyJob['condition'], wanted: number) =>
  noise !== null && noise !== 'next rack' && decibels === wanted;

export function replyFigures(done: Done): ReplyFigure[] {
  const all = heardOf(done);
  const together = new Set(all.filter(({ ear }) => ear !== 'ours').map(({ job }) => job));
  // Ours on the sound that the others heard too: the only rows to compare with theirs.
  const rows: [string, Heard[]][] = grouped(all, ({ ear }) => ear);
  const ours = all.filter(({ ear, job }) => ear === 'ours' && together.has(job));
  if (ours.length > 0) rows.splice(1, 0, ['ours, their clips', ours]);
  const figures: ReplyFigure[] = [];
  for (const [ear, heard] of rows) {
    const replies = heard.filter(({ job }) => job.part === 'replies');
    for (const [half, some] of grouped(replies, ({ job }) => job.half)) {
      if (ear === 'ours')
        for (const [name, group] of grouped(some, ({ job }) => job.condition.name))
          figures.push(replyFigure('replies', ear, half, name, group));
      else
        for (const name of ['clean', 'reverb', 'next rack 10 dB']) {
          const group = some.filter(({ job }) => job.condition.name === name);
          if (group.length > 0) figures.push(replyFigure('replies', ear, half, name, group));
        }
      for (const [name, test] of POOLED) {
        const group = some.filter(({ job }) => test(job));
        if (group.length > 0) figures.push(replyFigure('replies', ear, half, name, group));
      }
    }
    for (const part of ['urgent', 'corpus'] as const) {
      const some = heard.filter(({ job }) => job.part === part);
      const keyOf = ({ job }: Heard) =>
        part === 'urgent' ? `${kindOf(job.wanted.reply)} at 10 dB` : job.condition.name;
      for (const [name, group] of grouped(some, keyOf))
        figures.push(replyFigure(part, ear, 'reported', name, group));
    }
    if (ear === 'ours') {
      for (const [name, group] of grouped(
        replies.filter(({ job }) => job.half === 'reported'),
        ({ job }) => job.spoken.speaker.name,
      ))
        figures.push(replyFigure('replies', ear, 'reported', `voice ${name}`, group));
      for (const [name, group] of grouped(
        replies.filter(({ job }) => job.half === 'reported'),
        ({ job }) => kindOf(job.wanted.reply),
      ))
        figures.push(replyFigure('replies', ear, 'reported', `kind ${name}`, group));
    }
  }
  return figures;
}

export function talkFigures(done: Done): TalkFigure[] {
  const all = done.flatMap(({ job, answers }) =>
    job.kind !== 'talk'
      ? []
      : answers.flatMap((answer) =>
          answer.kind === 'talk' ? [{ ...answer, source: (job as TalkJob).source }] : [],
        ),
  );
  const figure = (source: string, some: typeof all): TalkFigure[] =>
    grouped(some, ({ ear, at }) => `${ear}|${at}`).flatMap(([, group]) => {
      const [first] = group;
      if (first === undefined) return [];
      const hours = group.reduce((sum, { seconds }) => sum + seconds, 0) / 3600;
      const accepted = group.flatMap((each) => each.accepted);
      const asked = group.flatMap((each) => each.asked);
      return [
        {
          figure: 'other speech',
          ear: first.ear,
          source,
          at: first.at,
          hours: Math.round(hours * 1000) / 1000,
          accepted: accepted.length,
          acceptedAnHour: tenth(accepted.length / hours),
          acceptedAnHourAtMost: tenth(rateAtMost(accepted.length, hours)),
          askedAnHour: tenth(asked.length / hours),
          heard: accepted,
        },
      ];
    });
  const talk = all.filter(({ source }) => source !== 'next rack');
  return [
    ...figure('all talk', talk),
    ...grouped(all, ({ source }) => source).flatMap(([source, some]) => figure(source, some)),
  ];
}

function timeFigure(ear: string, what: string, times: number[]): TimeFigure[] {
  if (times.length === 0) return [];
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) =>
    Math.round(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0);
  return [
    { figure: 'milliseconds', ear, what, n: times.length, median: at(0.5), percentile95: at(0.95) },
  ];
}

export function timeFigures(done: Done): TimeFigure[] {
  const groups: [string, (heard: Heard) => boolean][] = [
    ['a single answer', ({ job }) => job.part === 'replies' && isSingle(job.wanted.reply)],
    ['a combined answer', ({ job }) => job.part === 'replies' && !isSingle(job.wanted.reply)],
    ['a stop word', ({ job }) => job.part === 'urgent' && kindOf(job.wanted.reply) === 'stop'],
  ];
  return grouped(heardOf(done), ({ ear }) => ear).flatMap(([ear, all]) => [
    ...timeFigure(
      ear,
      'a look',
      all.flatMap(({ lookMilliseconds }) => lookMilliseconds),
    ),
    ...groups.flatMap(([what, test]) => {
      const some = all.filter(test);
      return [
        ...timeFigure(
          ear,
          `end of speech to ${what}`,
          some.flatMap(({ delayMilliseconds }) => delayMilliseconds ?? []),
        ),
        ...timeFigure(
          ear,
          `end of speech to ${what}, computing left out`,
          some.flatMap(({ waitMilliseconds }) => waitMilliseconds ?? []),
        ),
      ];
    }),
  ]);
}

export const memoryFigures = (done: Done): MemoryFigure[] =>
  done
    .flatMap(({ answers }) => answers)
    .flatMap((answer) =>
      answer.kind !== 'memory'
        ? []
        : [
            {
              figure: 'memory',
              ear: answer.ear,
              replies: answer.replies,
              grownMegabytes: tenth(answer.grownMegabytes),
              megabytes: tenth(answer.megabytes),
            },
          ],
    );

/** Every reply that our ear did not hear right. */
export const mishearings = (done: Done): Mishearing[] =>
  heardOf(done)
    .filter(({ ear, outcome }) => ear === 'ours' && outcome !== 'accepted' && outcome !== 'asked')
    .map(({ job, heard, outcome, why }) => ({
      figure: 'misheard',
      part: job.part,
      half: job.half,
      condition: job.condition.name,
      voice: job.spoken.speaker.name,
      prompt: job.wanted.prompt,
      said: job.wanted.text,
      heard,
      outcome,
      why,
    }));

/** Why our ear missed replies of the reported half. */
function missedFigures(done: Done): MissedFigure[] {
  const missed = heardOf(done).filter(
    ({ ear, job, outcome }) =>
      ear === 'ours' && job.half === 'reported' && job.part !== 'corpus' && outcome === 'missed',
  );
  return grouped(missed, ({ job }) => job.condition.name).map(([condition, all]) => ({
    figure: 'missed',
    ear: 'ours',
    half: 'reported',
    condition,
    n: all.length,
    why: Object.fromEntries(
      grouped(all, ({ why }) => why ?? '').map(([why, some]) => [why, some.length]),
    ),
  }));
}

export const figuresOf = (done: Done): Figure[] => [
  ...replyFigures(done),
  ...talkFigures(done),
  ...timeFigures(done),
  ...memoryFigures(done),
  ...missedFigures(done),
  ...mishearings(done),
];

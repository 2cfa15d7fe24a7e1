import {
  grouped,
  heardOf,
  shareOf,
  type Done,
  type Heard,
  type Mishearing,
  type MissedFigure,
  type ReplyFigure,
} from './figures';
import { isOurOwn, type Outcome, type ReplyJob } from './jobs';
import { kindOf } from './replies';

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
  const together = new Set(all.filter(({ ear }) => !isOurOwn(ear)).map(({ job }) => job));
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
      for (const [name, group] of grouped(some, keyOf)) {
        figures.push(replyFigure(part, ear, 'reported', name, group));
        const sayable = group.filter(({ job }) => job.isInGrammar);
        if (sayable.length > 0 && sayable.length < group.length)
          figures.push(replyFigure(part, ear, 'reported', `${name}, in the grammar`, sayable));
      }
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
export function missedFigures(done: Done): MissedFigure[] {
  const missed = heardOf(done).filter(
    ({ ear, job, outcome }) => ear === 'ours' && job.half === 'reported' && outcome === 'missed',
  );
  return grouped(missed, ({ job }) => `${job.part}, ${job.condition.name}`).map(
    ([condition, all]) => ({
      figure: 'missed',
      ear: 'ours',
      half: 'reported',
      condition,
      n: all.length,
      why: Object.fromEntries(
        grouped(all, ({ why }) => why ?? '').map(([why, some]) => [why, some.length]),
      ),
    }),
  );
}

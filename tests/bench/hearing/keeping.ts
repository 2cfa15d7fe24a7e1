import { createHash } from 'node:crypto';
import { appendFileSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { randomFrom } from '../../ear/noises';
import type { Answer, Job } from './jobs';

interface Line {
  job: string;
  answers: Answer[];
}

/**
 * Answers kept in a folder, a line each as they come: a long run that was broken off goes on where
 * it was, and shards heard apart are counted together.
 */
export class Kept {
  private readonly known = new Map<string, Answer[]>();
  private readonly file: string;

  /** @param name of the file that this run adds to; those of others are only read. */
  constructor(folder: string, name: string) {
    mkdirSync(folder, { recursive: true });
    this.file = join(folder, `${name}.jsonl`);
    for (const each of readdirSync(folder).filter((file) => file.endsWith('.jsonl')))
      for (const line of readFileSync(join(folder, each), 'utf8').split('\n')) {
        const read = lineOf(line);
        if (read !== null) this.known.set(read.job, read.answers);
      }
  }

  answersTo(job: Job): Answer[] | undefined {
    return this.known.get(nameOf(job));
  }

  keep(job: Job, answers: Answer[]): void {
    const line: Line = { job: nameOf(job), answers };
    this.known.set(line.job, answers);
    appendFileSync(this.file, `${JSON.stringify(line)}\n`);
  }
}

/** The last line may have been cut short. */
function lineOf(line: string): Line | null {
  try {
    return line === '' ? null : (JSON.parse(line) as Line);
  } catch {
    return null;
  }
}

const nameOf = (job: Job) => createHash('sha1').update(JSON.stringify(job)).digest('hex');

/**
 * Places of the jobs in the order in which they are heard: what takes longest first, then replies
 * at random, so that a run that was broken off has heard some of everything.
 */
export function turnsOf(jobs: Job[]): number[] {
  const random = randomFrom(1);
  return jobs
    .map(({ kind }, at) => ({ at, turn: kind === 'reply' ? random() : -1 }))
    .sort((one, other) => one.turn - other.turn)
    .map(({ at }) => at);
}

/** `2/5`: every fifth, from the second on. @throws Error that says how it is written. */
export function shardOf<T>(all: T[], shard: string): T[] {
  const [, first, of] = /^(\d+)\/(\d+)$/.exec(shard) ?? [];
  const [place, count] = [Number(first), Number(of)];
  if (!(place >= 1 && place <= count))
    throw new Error(`--shard ${shard}: write it as 1/4, 2/4, 3/4 or 4/4.`);
  return all.filter((_, at) => at % count === place - 1);
}

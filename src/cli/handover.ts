/** What a coach handed over, from files: `--handover`, `--earlier` and `--at`. */
import { readFileSync } from 'node:fs';
import type { Handover } from '../domain/handover/handover';
import { nextTasks } from '../domain/handover/progress';
import type { HomeworkDay } from '../domain/handover/progressDay';
import { placeOf } from '../domain/keeping/strictJson';
import type { Entry } from '../domain/log';
import type { CueBook } from '../domain/script';
import { handoverSchema } from '../schemas/handover';
import { moment } from '../schemas/fields';
import { momentAt } from '../session/startedAt';
import { Refused, WrongUsage } from './refused';
import { STARTED_AT_MILLISECONDS } from './rehearsalHall';
import { readSessionFile } from './sessionFile';
import { bookOf } from './verb';

const DAY_MILLISECONDS = 24 * 3600 * 1000;

export interface HomeworkFiles {
  handover: string | undefined;
  earlier: readonly string[];
  /** Wall time, ISO 8601 with offset; a day after the last of the earlier ones where left out. */
  at: string | undefined;
}

export interface HomeworkGiven {
  book: CueBook;
  day: HomeworkDay;
  startsAtMilliseconds: number;
  utcOffsetMinutes: number;
}

/**
 * The homework of that moment, in the language that it was handed over in.
 * @throws Refused where a file cannot be read or does not fit, WrongUsage where `at` is no moment.
 */
export function homeworkGiven({ handover: path, earlier, at }: HomeworkFiles): HomeworkGiven {
  if (path === undefined) throw new WrongUsage('Name what was handed over: --handover FILE.json.');
  const handover = readHandover(path);
  const logs = earlier.map(readSessionFile);
  const now = at ?? afterAll(logs);
  if (!moment.safeParse(now).success)
    throw new WrongUsage('--at is a date and time with its offset: 2031-03-01T09:00:00+01:00.');
  const book = bookOf(handover.language);
  const startsAtMilliseconds = Date.parse(now);
  try {
    const day = nextTasks(book, handover, logs, now);
    return { book, day, startsAtMilliseconds, utcOffsetMinutes: offsetOf(now) };
  } catch (problem) {
    throw new Refused(`${path}: ${(problem as Error).message}`);
  }
}

/** The bare handover, or a file of homework with it inside. */
function readHandover(path: string): Handover {
  const given = jsonIn(path);
  const inFile = typeof given === 'object' && given !== null && 'handover' in given;
  const read = handoverSchema.safeParse(inFile ? given.handover : given);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new Refused(
    `${path}: ${placeOf(issue?.path ?? []) || 'it'}: ${issue?.message ?? ''}. Give homework as the app saves it, or its field "handover" alone.`,
  );
}

function jsonIn(path: string): unknown {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch (problem) {
    throw new Refused(`${path}: cannot be read as JSON (${(problem as Error).message}).`);
  }
}

/** A day after the last of them, where they were; the usual beginning where there are none. */
function afterAll(logs: readonly Entry[][]): string {
  const starts = logs
    .flatMap((log) => log.flatMap((entry) => (entry.type === 'started' ? [entry.startedAt] : [])))
    .sort((one, other) => Date.parse(one) - Date.parse(other));
  const last = starts.at(-1);
  if (last === undefined) return momentAt(STARTED_AT_MILLISECONDS, 0);
  return momentAt(Date.parse(last) + DAY_MILLISECONDS, offsetOf(last));
}

/** Minutes east of UTC. */
function offsetOf(now: string): number {
  const [, sign, hours, minutes] = /([+-])(\d\d):(\d\d)$/.exec(now) ?? [];
  const size = Number(hours ?? 0) * 60 + Number(minutes ?? 0);
  return sign === '-' ? -size : size;
}

/** The homework of one day: what is done of what was handed over, as it stands in the log. */
import type { Area } from '../areas';
import type { Load } from '../findings';
import type { Entry } from '../log';
import type { CueBook, DrillId, Routine } from '../script';
import type { Handover, HandoverTask } from './handover';

/**
 * Why a task is what it is (RULES.md, chapter 15). `instead`: what was handed over
 * cannot be done alone here; `full-load`: held easier, now as handed over;
 * `waits`: held, but what is above it is for a day with a coach; `back`: a rung down.
 */
export const TASK_WHYS = [
  ...(['handed-over', 'instead', 'up', 'full-load', 'same', 'same-day'] as const),
  ...(['waits', 'easier', 'back'] as const),
] as const;
export type TaskWhy = (typeof TASK_WHYS)[number];

/** What was done last of an area, on a day before this one. */
export interface DoneBefore {
  drill: DrillId;
  rung: number;
  load: Load;
  /** Calendar days since; at least 1. */
  daysAgo: number;
}

/** What is done of an area today. */
export interface DayTask extends HandoverTask {
  why: TaskWhy;
  /** Drills of its rung and of those below that may be done today, in the order of the ladder. */
  may: DrillId[];
  /** How it was the morning after is asked first. Null where no morning has come since. */
  before: DoneBefore | null;
}

/**
 * Why nothing of an area is done any more until a coach hands over anew: `warning-sign` and
 * `referred` wait for a licensed professional, the others for the coach.
 */
export const LEFT_WHYS = [
  ...(['warning-sign', 'referred', 'pain', 'alone', 'equipment', 'load'] as const),
] as const;
export type LeftWhy = (typeof LEFT_WHYS)[number];

export interface HomeworkDay {
  handover: Handover;
  /** In the order they are done; none where nothing may be done. */
  tasks: DayTask[];
  left: { area: Area; why: LeftWhy }[];
}

/** The name under which homework stands in a log; no script has it. */
export const HOMEWORK = 'homework';

/** What a log that began with this homework runs. */
export const homeworkRoutine = (
  { lines }: Pick<CueBook, 'lines'>,
  { tasks }: Pick<HomeworkDay, 'tasks'>,
): Routine => ({
  id: HOMEWORK,
  name: lines['shown.homework-routine'] ?? HOMEWORK,
  ways: ['alone'],
  items: tasks.map(({ area }) => ({ do: 'ladder', area })),
});

/** The routine that a log began with: of the book, or its homework. Undefined where unknown. */
export const routineBegun = (
  book: CueBook,
  started: { routine: string; homework?: HomeworkDay | undefined },
): Routine | undefined =>
  started.homework === undefined
    ? book.routines[started.routine]
    : homeworkRoutine(book, started.homework);

/** What a log of homework began with; undefined of any other. */
export const homeworkIn = (log: readonly Entry[]): HomeworkDay | undefined =>
  log.find((entry) => entry.type === 'started')?.homework;

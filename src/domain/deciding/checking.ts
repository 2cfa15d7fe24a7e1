import type { Side } from '../areas';
import { checksOf, type CheckScript, type CueBook } from '../script';
import {
  mayLoad,
  MOST_TRIES,
  type Answer,
  type AreaCourse,
  type Course,
  type Round,
  type Slot,
  type Trial,
} from './course';

const keyOf = ({ check, side }: Slot): string => (side === null ? check : `${check}/${side}`);

export const trialOf = (round: Round, slot: Slot): Trial =>
  round.get(keyOf(slot)) ?? { tries: 0, answer: null };

/** The slots of a check in the order they are asked: left, then right. */
export const slotsOf = ({ id, sided }: CheckScript): Slot[] =>
  (sided ? (['left', 'right'] as const) : [null]).map((side) => ({ check: id, side }));

const isFail = (answer: Answer | null): boolean =>
  answer !== null && answer.result !== 'held' && answer.result !== 'not-tested';

const answersOf = (round: Round, check: CheckScript): (Answer | null)[] =>
  slotsOf(check).map((slot) => trialOf(round, slot).answer);

/** The worst side counts: one failed side fails the check. */
export const hasFailed = (round: Round, check: CheckScript): boolean =>
  answersOf(round, check).some(isFail);

const hasHeld = (round: Round, check: CheckScript): boolean =>
  answersOf(round, check).every((answer) => answer?.result === 'held');

/** Failed answers of a round with their checks, for the ladder's entry. */
export const failuresOf = (book: CueBook, { area, checks }: AreaCourse) =>
  checksOf(book, area).flatMap((check) =>
    answersOf(checks, check).flatMap((answer) =>
      answer !== null && isFail(answer) ? [{ check: check.id, ...answer }] : [],
    ),
  );

/** Checks that are asked in the first round as things stand (rules 1.11, 6.1, 10.6, 10.7). */
function askedOf(course: Course, at: AreaCourse): CheckScript[] {
  const all = checksOf(course.book, at.area);
  const bars = !mayLoad(course, at) || all.some((c) => !c.loaded && hasFailed(at.checks, c));
  return all.filter(
    ({ loaded, needsCoach }) => !(loaded && bars) && !(needsCoach && course.way === 'alone'),
  );
}

/** Checks that are asked again after the ladder (rules 5.1 to 5.4). */
function retestedOf(course: Course, at: AreaCourse): CheckScript[] {
  const { book, way } = course;
  if (at.climb === null || at.climb.ended === 'pain') return [];
  const all = checksOf(book, at.area);
  const loads = mayLoad(course, at);
  const bars = !loads || all.some((c) => !c.loaded && hasFailed(at.retests, c));
  const failed = all.filter((c) => hasFailed(at.checks, c) && !(c.loaded && bars));
  const held = failed.every((check) => hasHeld(at.retests, check));
  // A loaded check that waited for the unloaded one has its turn once that holds.
  const waited = all.filter(
    (c) =>
      c.loaded &&
      !failed.includes(c) &&
      answersOf(at.checks, c).every((answer) => answer === null) &&
      !(c.needsCoach && way === 'alone'),
  );
  return held && loads && failed.length > 0 ? [...failed, ...waited] : failed;
}

/** The next slot without an answer, or null where the round is done. */
export function openSlot(course: Course, at: AreaCourse, retest: boolean): Slot | null {
  if (!isRoundOpen(at, retest)) return null;
  const round = retest ? at.retests : at.checks;
  const asked = retest ? retestedOf(course, at) : askedOf(course, at);
  return asked.flatMap(slotsOf).find((slot) => trialOf(round, slot).answer === null) ?? null;
}

/** Whether a round of checks is open at all (rules 1.3, 6.1). */
const isRoundOpen = (at: AreaCourse, retest: boolean): boolean =>
  !at.referred && (retest || !at.timeUp);

/** Whether a slot that the coach wants may be asked now: what is loaded may be barred. */
export function maySlot(course: Course, at: AreaCourse, { check }: Slot, retest: boolean): boolean {
  const script = course.book.checks[check];
  return isRoundOpen(at, retest) && script !== undefined && (!script.loaded || mayLoad(course, at));
}

/** The slots that a finding is about: both sides, the side said, or the side asked. */
export function slotsSaid(
  check: CheckScript,
  said: Side | 'both' | null,
  asked: Side | null,
): Slot[] {
  if (!check.sided) return [{ check: check.id, side: null }];
  if (said === 'both') return slotsOf(check);
  return [{ check: check.id, side: said ?? asked ?? 'left' }];
}

/** Takes a try's answer; a null answer leaves the slot open for another try. */
export function record(round: Round, slot: Slot, answer: Answer | null): void {
  const before = trialOf(round, slot);
  round.set(keyOf(slot), {
    tries: Math.min(before.tries + 1, MOST_TRIES),
    answer: answer ?? before.answer,
  });
}

/** Sets an answer without a try: not tested. */
export function leaveOut(round: Round, slot: Slot): void {
  const answer: Answer = { result: 'not-tested', faults: [] };
  round.set(keyOf(slot), { ...trialOf(round, slot), answer });
}

/** Whether every check of the area was asked and held, at first or in the end. */
export function standing(
  { book }: Course,
  { area, checks, retests }: AreaCourse,
): 'held' | 'failed' | 'untested' {
  const all = checksOf(book, area);
  if (all.every((check) => hasHeld(checks, check))) return 'held';
  if (!all.some((check) => hasFailed(checks, check))) return 'untested';
  const regained = all.every((check) => hasHeld(checks, check) || hasHeld(retests, check));
  const failedAgain = all.some((check) => hasFailed(retests, check));
  return regained && !failedAgain ? 'held' : 'failed';
}

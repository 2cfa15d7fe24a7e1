import type { Side } from '../areas';
import type { CheckScript } from '../script';
import {
  isThere,
  mayLoad,
  MOST_TRIES,
  type Answer,
  type AreaCourse,
  type Course,
  type Round,
  type Slot,
  type Trial,
} from './course';

const UNTRIED: Trial = { tries: 0, answer: null };

export const trialOf = (round: Round, { key }: Slot): Trial => round.get(key) ?? UNTRIED;

// A log is folded for every decision: slots are made once for each script.
const slotsMade = new WeakMap<CheckScript, Slot[]>();

/** The slots of a check in the order they are asked: left, then right. */
export function slotsOf(script: CheckScript): Slot[] {
  const made = slotsMade.get(script);
  if (made !== undefined) return made;
  const { id: check, sided } = script;
  const slots: Slot[] = sided
    ? (['left', 'right'] as const).map((side) => ({ check, side, key: `${check}/${side}` }))
    : [{ check, side: null, key: check }];
  slotsMade.set(script, slots);
  return slots;
}

const isFail = (answer: Answer | null): boolean =>
  answer !== null && answer.result !== 'held' && answer.result !== 'not-tested';

const answerOf = (round: Round, slot: Slot): Answer | null => trialOf(round, slot).answer;

/** The worst side counts: one failed side fails the check. */
export const hasFailed = (round: Round, check: CheckScript): boolean =>
  slotsOf(check).some((slot) => isFail(answerOf(round, slot)));

const hasHeldIn = (round: Round, slot: Slot): boolean => {
  const answer = answerOf(round, slot);
  return answer?.result === 'held' && answer.isUnseen !== true;
};

const hasHeld = (round: Round, check: CheckScript): boolean =>
  slotsOf(check).every((slot) => hasHeldIn(round, slot));

/** Whether an unloaded check of the area was neither held nor failed. */
export const hasUntestedUnloaded = ({ all, checks }: AreaCourse): boolean =>
  all.some((check) => !check.loaded && !hasHeld(checks, check) && !hasFailed(checks, check));

/** Failed answers of a round with their checks, for the ladder's entry. */
export const failuresOf = ({ all, checks }: AreaCourse) =>
  all.flatMap((check) =>
    slotsOf(check).flatMap((slot) => {
      const answer = answerOf(checks, slot);
      return answer !== null && isFail(answer) ? [{ check: check.id, ...answer }] : [];
    }),
  );

/** Whether a check can be done here: what it needs is there, and whom (rules 10.7, 10.9). */
const canBeDone = (course: Course, { equipment, needsCoach }: CheckScript): boolean =>
  !(needsCoach && course.way === 'alone') &&
  (equipment.length === 0 || equipment.some((id) => isThere(course, id)));

/** Checks that are asked in the first round as things stand (rules 1.11, 6.1, 10.6, 10.7, 10.9). */
function askedOf(course: Course, at: AreaCourse): CheckScript[] {
  const { all } = at;
  const bars = !mayLoad(course, at) || all.some((c) => !c.loaded && hasFailed(at.checks, c));
  return all.filter((check) => !(check.loaded && bars) && canBeDone(course, check));
}

/** Checks that are asked again after the ladder (rules 5.1 to 5.4). */
function retestedOf(course: Course, at: AreaCourse): CheckScript[] {
  if (at.climb === null || at.climb.ended === 'pain') return [];
  const { all } = at;
  const loads = mayLoad(course, at);
  const bars = !loads || all.some((c) => !c.loaded && hasFailed(at.retests, c));
  const failed = all.filter((c) => hasFailed(at.checks, c) && !(c.loaded && bars));
  const held = failed.every((check) => hasHeld(at.retests, check));
  // A loaded check that waited for the unloaded one has its turn once that holds.
  const waited = all.filter(
    (c) =>
      c.loaded &&
      !failed.includes(c) &&
      slotsOf(c).every((slot) => answerOf(at.checks, slot) === null) &&
      canBeDone(course, c),
  );
  return held && loads && failed.length > 0 ? [...failed, ...waited] : failed;
}

/** The next slot without an answer, or null where the round is done. */
export function openSlot(course: Course, at: AreaCourse, retest: boolean): Slot | null {
  if (!isRoundOpen(at, retest)) return null;
  const round = retest ? at.retests : at.checks;
  const asked = retest ? retestedOf(course, at) : askedOf(course, at);
  for (const check of asked) {
    for (const slot of slotsOf(check)) if (answerOf(round, slot) === null) return slot;
  }
  return null;
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
  const slots = slotsOf(check);
  if (!check.sided || said === 'both') return slots;
  const side = said ?? asked ?? 'left';
  return slots.filter((slot) => slot.side === side);
}

/** Takes a try with its answer; without one the slot is open again, for another try. */
export function record(round: Round, slot: Slot, answer: Answer | null): void {
  const { tries } = trialOf(round, slot);
  round.set(slot.key, { tries: Math.min(tries + 1, MOST_TRIES), answer });
}

/** Sets an answer without a try, and gives it: not tested. */
export function leaveOut(round: Round, slot: Slot): Answer {
  const { tries } = trialOf(round, slot);
  const answer: Answer = { result: 'not-tested', faults: [] };
  round.set(slot.key, { tries, answer });
  return answer;
}

/** Whether every check of the area was asked and held, at first or in the end. */
export function standing({ all, checks, retests }: AreaCourse): 'held' | 'failed' | 'untested' {
  const failedAgain = all.some((check) => hasFailed(retests, check));
  if (!failedAgain && all.every((check) => hasHeld(checks, check) || hasHeld(retests, check))) {
    return 'held';
  }
  return failedAgain || all.some((check) => hasFailed(checks, check)) ? 'failed' : 'untested';
}

/** Counts a session anew with what was corrected after it (RULES.md, chapter 14). */
import type { Entry } from '../log';
import type { Side } from '../areas';
import { slotsSaid, trialOf } from './checking';
import { drillOf, HELD_IN_ROW } from './climbing';
import { counting, isOther, painOf, saidFindings, type Said, type SaidFinding } from './corrected';
import {
  isBarredByJoined,
  isJoined,
  type Answer,
  type AreaCourse,
  type Climb,
  type Counted,
  type CountedCheck,
  type Course,
  type Slot,
  type Visit,
} from './course';
import { barAfterMorning } from './homework';
import { bar, judge, weigh, type PainVerdict } from './hurting';

/** One side of a finding that counts as something else than was said. */
interface Corrected extends SaidFinding {
  now: Said;
  verdict: PainVerdict;
}

/**
 * The way through the session stays as it went: each finding counts where it was said, with what
 * it says now, and what that makes of the areas is worked out anew. Nothing changes where nothing
 * was corrected, or where all of it was corrected back.
 */
export function recount(course: Course, entries: readonly Entry[]): void {
  if (!entries.some(({ type }) => type === 'corrected')) return;
  const corrected = saidFindings(entries)
    .filter(isOther)
    .map((one) => {
      const now = counting(one);
      return { ...one, now, verdict: weigh(course.settings, painOf(now)) };
    });
  if (corrected.length > 0) recountWith(course, corrected);
}

/** The same with the corrections at hand. */
export function recountWith(course: Course, corrected: readonly Corrected[]): void {
  course.isRecounted = corrected.length > 0;
  course.loadedBarred = course.flagged !== null && isJoined(course.flagged);
  for (const at of course.areas.values()) clear(course, at);
  for (const at of course.areas.values()) barAfterMorning(course, at);
  for (const counted of course.counted) {
    const at = course.areas.get(counted.area);
    if (at !== undefined) countAnew(course, at, counted, of(counted, corrected));
  }
  // Words that were followed by others before their pain was answered counted nowhere.
  const nowhere = corrected.filter(
    ({ finding }) => !course.counted.some(({ pain }) => pain?.finding.id === finding.id),
  );
  for (const one of nowhere) hurt(course, one);
  for (const at of course.areas.values()) {
    if (at.climb !== null) climbAnew(course, at, at.climb, corrected);
  }
}

const of = ({ pain }: Counted, corrected: readonly Corrected[]): Corrected[] =>
  corrected.filter(({ finding }) => finding.id === pain?.finding.id);

/** What pain barred and what was answered; tries, time and the way up the ladder stay. */
function clear(course: Course, at: AreaCourse): void {
  at.referred = course.flagged === at.area;
  at.unloadedOnly = false;
  at.standInsBelow = Infinity;
  at.hurt = false;
  at.climb?.over.clear();
  for (const round of [at.checks, at.retests]) {
    for (const [key, { tries }] of round) round.set(key, { tries, answer: null });
  }
}

function hurt(course: Course, { finding, verdict }: Corrected): void {
  const { check, drill } = finding;
  const area = (course.book.checks[check ?? ''] ?? course.book.drills[drill ?? ''])?.area;
  const at = area === undefined ? undefined : course.areas.get(area);
  if (at !== undefined) bar(course, at, verdict, drill);
}

function countAnew(
  course: Course,
  at: AreaCourse,
  counted: Counted,
  corrected: readonly Corrected[],
): void {
  const { pain } = counted;
  const isWhole = corrected.some(({ of: part }) => part === null) || corrected.length > 1;
  if (pain !== null && !isWhole) bar(course, at, judge(course, pain), drillIn(at, counted));
  for (const one of corrected) bar(course, at, one.verdict, drillIn(at, counted));
  if (counted.as !== 'check') return;
  const parts = corrected.map(({ of: part }) => part);
  for (const { slot, answer } of counted.answers) {
    if (!isWhole && !parts.includes(slot.side)) set(at, counted, slot, answer);
  }
  for (const one of corrected) answerAnew(course, at, counted, one);
}

/** The drill that a finding was of; null for a check. */
const drillIn = (at: AreaCourse, { as, pain }: Counted): string | null => {
  if (as === 'check' || pain === null || pain.finding.check !== null) return null;
  return pain.finding.drill ?? at.climb?.visit.drill ?? null;
};

function answerAnew(
  { book }: Course,
  at: AreaCourse,
  counted: CountedCheck,
  { finding, now, verdict }: Corrected,
): void {
  const check = book.checks[finding.check ?? counted.answers[0]?.slot.check ?? ''];
  if (check === undefined || verdict === 'refer' || verdict === 'over') return;
  const wasHeld = counted.answers.some(({ answer }) => answer?.result === 'held');
  const result = verdict === 'back' ? 'pain' : now.result;
  const isUnseen = result === 'held' && !counted.retest && !wasHeld;
  const answer = { result, faults: now.faults, entry: finding.id, isUnseen };
  for (const slot of slotsSaid(check, now.side, counted.asked)) set(at, counted, slot, answer, 1);
}

/** Sets an answer; a side that was never tried was, where a finding is moved to it. */
function set(
  at: AreaCourse,
  { retest }: CountedCheck,
  slot: Slot,
  answer: Answer | null,
  leastTries = 0,
): void {
  const round = retest ? at.retests : at.checks;
  round.set(slot.key, { tries: Math.max(trialOf(round, slot).tries, leastTries), answer });
}

/** The rung that was held last, by the sets as they were done (2.1). */
function climbAnew(
  course: Course,
  at: AreaCourse,
  climb: Climb,
  corrected: readonly Corrected[],
): void {
  const isHurt = at.referred || at.unloadedOnly || isBarredByJoined(course, at);
  if (climb.ended === 'pain' && !isHurt) climb.ended = 'coach';
  const sets = course.counted.filter((one) => one.as === 'set' && one.area === at.area);
  if (!sets.some((one) => of(one, corrected).length > 0)) return;
  climb.lastHeld = 0;
  climb.lastHeldDrill = null;
  const inRow = new Map<Visit, number>();
  for (const done of setsIn(sets)) {
    const { visit, rung } = done;
    const held = isHeld(course, done, corrected);
    if (held === null) continue;
    const row = held ? (inRow.get(visit) ?? 0) + 1 : 0;
    inRow.set(visit, row);
    if (row < HELD_IN_ROW) continue;
    climb.lastHeld = rung;
    climb.lastHeldDrill = visit.drill;
  }
}

interface DoneSet {
  visit: Visit;
  set: number;
  rung: number;
  counted: Counted[];
}

/** What was said of each set, in the order they were done. */
function setsIn(counted: readonly Counted[]): DoneSet[] {
  const done: DoneSet[] = [];
  for (const one of counted) {
    if (one.as !== 'set') continue;
    const { visit, set: number, rung } = one;
    const same = done.find((each) => each.visit === visit && each.set === number);
    if (same === undefined) done.push({ visit, set: number, rung, counted: [one] });
    else same.counted.push(one);
  }
  return done;
}

/** Whether a set was held, both its sides where it has sides; null where it has no result. */
function isHeld(
  course: Course,
  { visit, counted }: DoneSet,
  corrected: readonly Corrected[],
): boolean | null {
  const sides = new Map<Side | null, boolean>();
  for (const one of counted) {
    const { pain } = one;
    if (pain === null) continue;
    const anew = of(one, corrected);
    const isWhole = anew.some(({ of: part }) => part === null) || anew.length > 1;
    const { finding } = pain;
    const told = [
      ...(isWhole ? [] : [{ said: finding, verdict: judge(course, pain) }]),
      ...anew.map(({ now, verdict }) => ({ said: now, verdict })),
    ];
    for (const { said, verdict } of told) {
      if (verdict === 'back' || verdict === 'over' || verdict === 'refer') return false;
      if (said.result === 'pain' || said.result === 'not-tested') continue;
      const which: (Side | null)[] = said.side === 'both' ? ['left', 'right'] : [said.side];
      for (const side of which) sides.set(side, said.result === 'held');
    }
  }
  const needed: (Side | null)[] = drillOf(course, visit.drill).sided
    ? ['left', 'right']
    : [...sides.keys()];
  if (needed.length === 0 || needed.some((side) => !sides.has(side))) return null;
  return needed.every((side) => sides.get(side) === true);
}

/** Chapter 13 of RULES.md: what is done until the next visit. */
import type { Area } from '../areas';
import { barOf, drillOf, drillsOn, rungOf } from '../deciding/climbing';
import { isThere, type AreaCourse, type Course } from '../deciding/course';
import { findingHurts } from '../deciding/hurting';
import type { FindingTold } from '../deciding/reading';
import type { Load } from '../findings';
import { say } from '../saying';
import type { CueBook, DrillId, DrillScript } from '../script';
import { hasNewPain } from './barred';
import { areaName, titled } from './wording';

/** One drill until the next visit. */
export interface Homework {
  area: Area;
  drill: DrillId;
  /** As spoken inside a sentence: "the goblet squat". */
  name: string;
  rung: number;
  rule: string;
  because: string;
  sets: number;
  reps: number | null;
  breaths: number | null;
  perSide: boolean;
  load: Load;
  /** As it is shown: "2 sets of 6, each side". */
  dose: string;
  /** How it is made easier, or null where it is done as written. */
  loadNote: string | null;
  loadGuidance: string;
  caution: string;
  /** What is needed, as spoken. */
  equipment: string[];
  /** What to use where that is missing: other things, then other drills of the same rung. */
  instead: string[];
  /** Drills of the same rung that pain does not forbid. */
  alternates: DrillId[];
  /** `only-if-allowed`: not alone unless the coach allowed it; `load-handed-over`: never more. */
  coach: 'only-if-allowed' | 'load-handed-over' | 'not-needed';
  coachNote: string | null;
}

/** Why a working area has no homework. */
export interface NoHomework {
  area: Area;
  rule: string;
  because: string;
}

/** The homework of a `working` area: one drill, or why there is none. */
export function homeworkOf(
  course: Course,
  at: AreaCourse,
  findings: readonly FindingTold[],
): Homework | NoHomework {
  const { book } = course;
  if (hasNewPain(course, at, findings)) return none(course, at, '13.14', 'homework-new-pain');
  const held = at.climb?.lastHeld ?? 0;
  const heldDrill = at.climb?.lastHeldDrill ?? null;
  const highest = Math.min(Math.max(held, 1), lowestHurt(course, at, findings) - 1);
  for (let rung = highest; rung >= 1; rung -= 1) {
    const here = drillsOn(course, at, rung);
    const may = (rung === held && heldDrill !== null ? [heldDrill, ...here] : here).filter(
      (drill) => mayBeHomework(course, at, drill),
    );
    const drill = may.find((one) => barOf(course, at, one) === null) ?? may[0];
    if (drill === undefined) continue;
    const script = drillOf(course, drill);
    const isHeld = rung === held && drill === heldDrill;
    const load = isHeld ? loadHeld(drill, findings) : loadAfter(script, findings);
    const rule = isHeld ? '13.1' : held === 0 ? '13.2' : '13.3';
    const alternates = here.filter((one) => one !== drill && mayBeHomework(course, at, one));
    return {
      ...describe(course, script, load),
      area: at.area,
      rung,
      rule,
      alternates,
      instead: [...script.instead, ...alternates.map((one) => drillOf(course, one).name)],
      because: say(
        book.lines,
        `shown.homework-${isHeld ? 'held' : held === 0 ? 'below' : 'lower'}`,
        {
          area: areaName(book, at.area),
        },
      ),
    };
  }
  return none(course, at, '13.4', 'homework-none');
}

const none = ({ book }: Course, { area }: AreaCourse, rule: string, key: string): NoHomework => ({
  area,
  rule,
  because: say(book.lines, `shown.${key}`, { area: titled(areaName(book, area)) }),
});

/** Rules 13.3 and 13.5: what pain forbids, or the coach did not allow alone, is no homework. */
const mayBeHomework = (course: Course, at: AreaCourse, drill: DrillId): boolean => {
  const bar = barOf(course, at, drill);
  return bar !== 'pain' && bar !== 'alone';
};

/** Rule 13.4: the lowest rung that hurt more than goes on; infinity where none did. */
function lowestHurt(course: Course, at: AreaCourse, findings: readonly FindingTold[]): number {
  const rungs = findings
    .filter((finding) => findingHurts(course.settings, finding))
    .map(({ drill }) => (drill === null ? 0 : rungOf(course, at, drill)));
  return Math.min(...rungs.filter((rung) => rung > 0), Infinity);
}

const ofDrill = (drill: DrillId, findings: readonly FindingTold[]) =>
  findings.filter((finding) => finding.drill === drill);

/** Rule 13.1: as it was held, but never heavier than written. */
function loadHeld(drill: DrillId, findings: readonly FindingTold[]): Load {
  const load = ofDrill(drill, findings).findLast(({ result }) => result === 'held')?.load;
  return load === undefined || load === null || load === 'heavier' ? 'as-written' : load;
}

/** Rules 13.2 and 13.3: made easier where the last try did not hold, and where it can be. */
function loadAfter({ id, easier }: DrillScript, findings: readonly FindingTold[]): Load {
  const last = ofDrill(id, findings).at(-1);
  if (last !== undefined && last.result !== 'held') return easier?.load ?? 'as-written';
  return loadHeld(id, findings);
}

function describe(course: Course, script: DrillScript, load: Load) {
  const { book } = course;
  const { id: drill, name, dose, sided: perSide, loadGuidance, caution } = script;
  const coach = script.aloneOnlyIfAllowed
    ? ('only-if-allowed' as const)
    : script.loaded
      ? ('load-handed-over' as const)
      : ('not-needed' as const);
  return {
    drill,
    name,
    sets: dose.sets,
    reps: dose.reps ?? null,
    breaths: dose.breaths ?? null,
    perSide,
    load,
    dose: doseText(book, script),
    loadNote: load === 'as-written' ? null : (script.easier?.cue ?? null),
    loadGuidance,
    caution,
    equipment: script.equipment.map((id) => equipmentText(course, id)),
    coach,
    coachNote: coach === 'not-needed' ? null : say(book.lines, `shown.coach-${coach}`, {}),
  };
}

/** "2 sets of 6, each side"; "3 sets of 3 long breaths". */
export function doseText({ lines }: CueBook, { dose, sided }: DrillScript): string {
  const { sets, reps, breaths } = dose;
  const counted = sets === 1 ? say(lines, 'shown.set', {}) : say(lines, 'shown.sets', { sets });
  const parts = [
    ...(reps === undefined ? [] : [say(lines, 'shown.dose-reps', { sets: counted, reps })]),
    ...(reps === undefined && breaths !== undefined
      ? [say(lines, 'shown.dose-breaths', { sets: counted, breaths })]
      : []),
    ...(reps === undefined && breaths === undefined ? [counted] : []),
    ...(sided ? [say(lines, 'shown.each-side', {})] : []),
  ];
  return parts.join(', ');
}

/** The thing by its name, and what does as well where it is not in this gym. */
function equipmentText(course: Course, id: string): string {
  const thing = course.book.equipment[id];
  if (thing === undefined) return id;
  const { name, orElse } = thing;
  if (orElse === undefined) return name;
  return course.missing.includes(id) && isThere(course, id)
    ? orElse
    : say(course.book.lines, 'shown.or-else', { name, orElse });
}

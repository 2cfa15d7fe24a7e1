import { AREAS } from '../domain/areas';
import { faultsOf } from '../domain/hearing/vocabulary';
import type { CueBook } from '../domain/script';
import type { Sources } from './reading';
import { checkFrom } from './schemas/check';
import { equipmentFrom } from './schemas/equipment';

const present = <T>(value: T | null): value is T => value !== null;

/** Joins the files to one book, as far as they can be used. Order is file order, by area. */
export function join(sources: Sources, language: string): CueBook | null {
  const vocabulary = sources.vocabulary.value;
  if (vocabulary === null) return null;
  const ladders = byArea(sources.ladders.map(({ value }) => value).filter(present));
  const checks = byArea(sources.checks.map(({ value }) => value).filter(present)).flatMap(
    ({ area, checks: written }) => written.map((check) => checkFrom(check, area)),
  );
  const order = ladders.flatMap((ladder) =>
    ladder.rungs.flatMap(({ drill, alternates }) => [drill, ...(alternates ?? [])]),
  );
  const rank = (drill: string) => (order.includes(drill) ? order.indexOf(drill) : order.length);
  const drills = sources.drills
    .map(({ value }) => value)
    .filter(present)
    .sort((one, other) => rank(one.id) - rank(other.id));
  const warmUps = sources.warmUps.map(({ value }) => value).filter(present);
  const routines = sources.routines.map(({ value }) => value).filter(present);
  return {
    language,
    checks: Object.fromEntries(checks.map((check) => [check.id, check])),
    drills: Object.fromEntries(drills.map((drill) => [drill.id, drill])),
    equipment: equipmentFrom(sources.equipment.value ?? {}),
    ladders: Object.fromEntries(ladders.map((ladder) => [ladder.area, ladder])),
    routines: Object.fromEntries(routines.map((routine) => [routine.id, routine])),
    warmUps: Object.fromEntries(warmUps.map((warmUp) => [warmUp.id, warmUp])),
    faults: faultsOf(vocabulary),
    vocabulary,
    lines: Object.fromEntries(
      sources.lines
        .map(({ value }) => value)
        .filter(present)
        .flatMap((file) => Object.entries(file))
        .map(([key, line]) => [key, typeof line === 'string' ? line : line.text]),
    ),
  };
}

const byArea = <T extends { area: (typeof AREAS)[number] }>(list: T[]): T[] =>
  [...list].sort((one, other) => AREAS.indexOf(one.area) - AREAS.indexOf(other.area));

import { basename } from 'node:path';
import type { CueBook } from '../domain/script';
import { warmUpProblems } from '../domain/warmUp/problems';
import type { Problem } from './problem';
import type { Sources } from './reading';
import type { FieldPath, SourceFile } from './sourceFile';

/** What the files say of each other that is not so: unknown ids, a name used twice. */
export function referenceProblems(sources: Sources, book: CueBook): Problem[] {
  return [
    ...sources.checks.flatMap((source) => checkReferences(source, book)),
    ...sources.drills.flatMap((source) => drillReferences(source, book)),
    ...sources.ladders.flatMap((source) => ladderReferences(source, book)),
    ...sources.routines.flatMap((source) => routineReferences(source, book)),
    ...sources.warmUps.flatMap((source) => warmUpReferences(source, book)),
    ...repeated(sources.checks, ({ checks }) =>
      checks.map(({ id }, index) => ({ name: id, path: ['checks', index, 'id'] })),
    ),
    ...repeated(sources.lines, (lines) =>
      Object.keys(lines).map((key) => ({ name: key, path: [key] })),
    ),
  ];
}

type Of<K extends 'checks' | 'drills' | 'ladders' | 'routines' | 'warmUps'> = Sources[K][number];

const unknown = (what: string, known: string[]) =>
  `there is no ${what} of that name; known: ${known.join(', ') || 'none'}`;

type ProblemAt = (path: FieldPath, problem: string) => Problem;

/** Ids of a list that are not known, each at its place. */
const unknownIn = (
  ids: string[],
  known: string[],
  what: string,
  problemAt: ProblemAt,
  path: FieldPath,
): Problem[] =>
  ids.flatMap((id, index) =>
    known.includes(id) ? [] : [problemAt([...path, index], unknown(what, known))],
  );

const faultsIn = (book: CueBook, area: string): string[] =>
  Object.values(book.faults)
    .filter(({ areas }) => areas.some((one) => one === area))
    .map(({ id }) => id);

function checkReferences({ value, problemAt }: Of<'checks'>, book: CueBook): Problem[] {
  if (value === null) return [];
  const known = faultsIn(book, value.area);
  const things = Object.keys(book.equipment);
  return value.checks.flatMap(({ faults, equipment }, check) => [
    ...unknownIn(faults, known, `${value.area} fault`, problemAt, ['checks', check, 'faults']),
    ...unknownIn(equipment, things, 'equipment', problemAt, ['checks', check, 'equipment']),
  ]);
}

function drillReferences({ value, file, problemAt }: Of<'drills'>, book: CueBook): Problem[] {
  if (value === null) return [];
  const known = faultsIn(book, value.area);
  const fixed = value.fixes.map(({ fault }) => fault);
  const missing = known.filter((fault) => !fixed.includes(fault));
  return [
    ...named(file, value.id, 'id', problemAt),
    ...unknownIn(value.equipment, Object.keys(book.equipment), 'equipment', problemAt, [
      'equipment',
    ]),
    ...value.fixes.flatMap(({ fault }, index) => {
      const path = ['fixes', index, 'fault'];
      if (!known.includes(fault)) return [problemAt(path, unknown(`${value.area} fault`, known))];
      return fixed.indexOf(fault) < index ? [problemAt(path, `${fault} has a fix already`)] : [];
    }),
    ...(missing.length > 0
      ? [
          problemAt(
            ['fixes'],
            `no fix for ${missing.join(', ')}; every ${value.area} fault needs one`,
          ),
        ]
      : []),
  ];
}

function ladderReferences({ value, file, problemAt }: Of<'ladders'>, book: CueBook): Problem[] {
  if (value === null) return [];
  const drills = Object.values(book.drills).filter(({ area }) => area === value.area);
  const checks = Object.values(book.checks).filter(({ area }) => area === value.area);
  const drillIds = drills.map(({ id }) => id);
  const checkIds = checks.map(({ id }) => id);
  const faults = faultsIn(book, value.area);
  const each = (ids: string[], known: string[], what: string, path: FieldPath) =>
    unknownIn(ids, known, what, problemAt, path);
  return [
    ...named(file, value.area, 'area', problemAt),
    ...value.rungs.flatMap(({ drill, alternates }, index) => [
      ...(drillIds.includes(drill)
        ? []
        : [problemAt(['rungs', index, 'drill'], unknown(`${value.area} drill`, drillIds))]),
      ...each(alternates ?? [], drillIds, `${value.area} drill`, ['rungs', index, 'alternates']),
    ]),
    ...value.entry.flatMap((entry, index) => [
      ...each(entry.checks, checkIds, `${value.area} check`, ['entry', index, 'checks']),
      ...each(entry.faults ?? [], faults, `${value.area} fault`, ['entry', index, 'faults']),
      ...(entry.rung > value.rungs.length
        ? [problemAt(['entry', index, 'rung'], `must be 1 to ${value.rungs.length}`)]
        : []),
    ]),
  ];
}

function routineReferences({ value, file, problemAt }: Of<'routines'>, book: CueBook): Problem[] {
  if (value === null) return [];
  return [
    ...named(file, value.id, 'id', problemAt),
    ...value.items.flatMap((item, index) => {
      const there =
        item.do === 'ladder'
          ? book.ladders[item.area] !== undefined
          : Object.values(book.checks).some(({ area }) => area === item.area);
      const what = item.do === 'ladder' ? 'ladder' : 'check';
      return there ? [] : [problemAt(['items', index, 'area'], `${item.area} has no ${what}`)];
    }),
  ];
}

function warmUpReferences({ value, file, problemAt }: Of<'warmUps'>, book: CueBook): Problem[] {
  if (value === null) return [];
  return [
    ...named(file, value.id, 'id', problemAt),
    ...(Object.hasOwn(book.routines, value.id)
      ? [problemAt(['id'], `a routine is called ${value.id} already`)]
      : []),
    ...warmUpProblems(book, value).map(({ path, problem }) => problemAt(path, problem)),
  ];
}

const named = (file: string, name: string, field: string, problemAt: ProblemAt): Problem[] =>
  basename(file, '.yaml') === name
    ? []
    : [problemAt([field], `must be the name of the file, ${basename(file, '.yaml')}`)];

function repeated<T>(
  files: SourceFile<T>[],
  namesOf: (value: T) => { name: string; path: FieldPath }[],
): Problem[] {
  const seen = new Map<string, string>();
  return files.flatMap(({ value, file, problemAt }) =>
    (value === null ? [] : namesOf(value)).flatMap(({ name, path }) => {
      const first = seen.get(name);
      if (first !== undefined) return [problemAt(path, `${name} stands in ${first} already`)];
      seen.set(name, file);
      return [];
    }),
  );
}

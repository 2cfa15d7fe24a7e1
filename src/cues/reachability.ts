import { AREAS } from '../domain/areas';
import type { CueBook } from '../domain/script';
import type { Problem } from './problem';
import type { Sources } from './reading';

/**
 * What nobody would ever come to: a drill on no rung, a check in no routine, a rung no entry leads
 * to, equipment that nothing needs.
 */
export function reachabilityProblems(sources: Sources, book: CueBook): Problem[] {
  const onRungs = Object.values(book.ladders).flatMap((ladder) =>
    ladder.rungs.flatMap(({ drill, alternates }) => [drill, ...(alternates ?? [])]),
  );
  const run = Object.values(book.routines).flatMap(({ items }) => items);
  const needed = [...Object.values(book.checks), ...Object.values(book.drills)].flatMap(
    ({ equipment }) => equipment,
  );
  const isRun = (what: string, area: string) =>
    run.some((item) => item.do === what && item.area === area);
  return [
    ...sources.drills.flatMap(({ value, problemAt }) =>
      value === null || onRungs.includes(value.id)
        ? []
        : [problemAt(['id'], `${value.id} stands on no rung of the ${value.area} ladder`)],
    ),
    ...sources.checks.flatMap(({ value, problemAt }) =>
      value === null || isRun('checks', value.area)
        ? []
        : [problemAt(['area'], `no routine has the ${value.area} checks`)],
    ),
    ...sources.ladders.flatMap(({ value, problemAt }) => {
      if (value === null) return [];
      const lowest = Math.min(...value.entry.map(({ rung }) => rung));
      const all = value.rungs.map(({ drill, alternates }) => [drill, ...(alternates ?? [])]);
      const twice = all.flatMap((drills, index) =>
        drills.flatMap((drill, place) =>
          all.slice(0, index).some((below) => below.includes(drill)) ||
          drills.indexOf(drill) < place
            ? [{ index, place }]
            : [],
        ),
      );
      return [
        ...(isRun('ladder', value.area)
          ? []
          : [problemAt(['area'], `no routine has the ${value.area} ladder`)]),
        // A ladder is climbed and stepped back from rung by rung, so only its foot can be cut off.
        ...(lowest > 1
          ? [problemAt(['entry'], `no entry leads to rung 1; the lowest is ${lowest}`)]
          : []),
        ...twice.map(({ index, place }) =>
          problemAt(
            ['rungs', index, ...(place === 0 ? ['drill'] : ['alternates', place - 1])],
            'stands on the ladder already',
          ),
        ),
        ...checksWithoutEntry(book, value.area).map((check) =>
          problemAt(['entry'], `no entry for the check ${check}`),
        ),
      ];
    }),
    ...Object.keys(book.equipment).flatMap((id) =>
      needed.includes(id) ? [] : [sources.equipment.problemAt([id], 'no drill or check needs it')],
    ),
    ...AREAS.filter((area) => isRun('checks', area) && book.ladders[area] === undefined).flatMap(
      (area) =>
        sources.checks
          .filter(({ value }) => value?.area === area)
          .map(({ problemAt }) => problemAt(['area'], `${area} has checks but no ladder`)),
    ),
  ];
}

const checksWithoutEntry = (book: CueBook, area: keyof CueBook['ladders']): string[] => {
  const led = book.ladders[area]?.entry.flatMap(({ checks }) => checks) ?? [];
  return Object.values(book.checks)
    .filter((check) => check.area === area && !led.includes(check.id))
    .map(({ id }) => id);
};

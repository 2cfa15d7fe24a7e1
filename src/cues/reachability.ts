import { AREAS } from '../domain/areas';
import type { CueBook } from '../domain/script';
import type { Problem } from './problem';
import type { Sources } from './reading';

/** What nobody would ever come to: a drill on no rung, a check in no routine, a rung no entry leads to. */
export function reachabilityProblems(sources: Sources, book: CueBook): Problem[] {
  const onRungs = Object.values(book.ladders).flatMap((ladder) =>
    ladder.rungs.flatMap(({ drill, alternates }) => [drill, ...(alternates ?? [])]),
  );
  const run = Object.values(book.routines).flatMap(({ items }) => items);
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
      const twice = value.rungs.findIndex(
        ({ drill }, index) => value.rungs.findIndex((rung) => rung.drill === drill) < index,
      );
      return [
        ...(isRun('ladder', value.area)
          ? []
          : [problemAt(['area'], `no routine has the ${value.area} ladder`)]),
        // A ladder is climbed and stepped back from rung by rung, so only its foot can be cut off.
        ...(lowest > 1
          ? [problemAt(['entry'], `no entry leads to rung 1; the lowest is ${lowest}`)]
          : []),
        ...(twice >= 0
          ? [problemAt(['rungs', twice, 'drill'], 'stands on a rung below already')]
          : []),
        ...checksWithoutEntry(book, value.area).map((check) =>
          problemAt(['entry'], `no entry for the check ${check}`),
        ),
      ];
    }),
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

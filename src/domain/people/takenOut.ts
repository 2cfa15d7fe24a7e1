/** Which people a list that is taken out has, and how its file is called. */
import type { Person } from './person';

/** `who`: everything that is known of them, to be imported again; `standing`: how they stand. */
export type ListKind = 'who' | 'standing';

/** Invented people are left out beside real ones. */
export const takenOut = <P extends { person: Person }>(all: readonly P[]): P[] => {
  const real = all.filter(({ person }) => !person.isInvented);
  return real.length > 0 ? real : [...all];
};

const NAMES: Readonly<Record<ListKind, string>> = { who: 'athletes', standing: 'standing' };

/** The name of its file on an ISO date. */
export function fileNameOf(
  kind: ListKind,
  people: readonly { person: Person }[],
  today: string,
): string {
  const isInvented = people.length > 0 && people.every(({ person }) => person.isInvented);
  return ['sayso', ...(isInvented ? ['invented'] : []), NAMES[kind], today].join('-') + '.csv';
}

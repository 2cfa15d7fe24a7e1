/** The list, narrowed to a squad or to those who need a look. */
import { AREAS } from '../../domain/areas';
import { squadsOf } from '../../domain/people/found';
import type { Only, PersonKnown } from './state';

const fits = ({ person, open }: PersonKnown, only: Only): boolean =>
  typeof only === 'object'
    ? person.squad === only.squad
    : AREAS.some((area) => open[area]?.[only === 'due' ? 'isDue' : 'waits'] === true);

export const narrowed = (all: readonly PersonKnown[], only: Only | null): PersonKnown[] =>
  only === null ? [...all] : all.filter((one) => fits(one, only));

/** What the list can be narrowed to, with how many are in each; nobody is in none of them. */
export const choicesOf = (all: readonly PersonKnown[]): { only: Only; count: number }[] =>
  [
    ...(['due', 'waits'] as const),
    ...squadsOf(all.map(({ person }) => person)).map((squad) => ({ squad })),
  ]
    .map((only) => ({ only, count: narrowed(all, only).length }))
    .filter(({ count }) => count > 0);

/** As the value of a choice. */
export const keyOf = (only: Only | null): string =>
  only === null ? '' : typeof only === 'object' ? `squad ${only.squad}` : only;

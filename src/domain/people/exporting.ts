/** People as lines of a spreadsheet, titles first. */
import { AREAS } from '../areas';
import { TITLES } from './columns';
import type { Open } from './openFor';
import type { Person } from './person';
import { PERSON_FIELDS, type PersonField } from './personFrom';

/** Everything that is known of them, such that `importPeople` gives the same people again. */
export const peopleRows = (people: readonly Person[]): string[][] => [
  PERSON_FIELDS.map((field) => TITLES[field]),
  ...people.map((person) => PERSON_FIELDS.map((field) => cellOf(person, field))),
];

function cellOf(person: Person, field: PersonField): string {
  if (field === 'stature') return lengthCell(person.statureMillimetres);
  if (field === 'knee') return lengthCell(person.kneeMillimetres);
  return String(person[field] ?? '');
}

const lengthCell = (millimetres: number | null): string =>
  millimetres === null ? '' : `${millimetres} mm`;

/** Who they are and how each area stands: outcome, last rung held, since when, due on. */
export const standingRows = (
  people: readonly Person[],
  open: ReadonlyMap<string, Open>,
): string[][] => [
  [
    ...[TITLES.name, TITLES.squad],
    ...AREAS.flatMap((area) => [area, `${area} rung`, `${area} on`, `${area} due`]),
  ],
  ...people.map(({ id, name, squad }) => [
    ...[name, squad ?? ''],
    ...AREAS.flatMap((area) => {
      const at = open.get(id)?.[area] ?? null;
      if (at === null) return ['', '', '', ''];
      const rung = at.rung === null ? '' : String(at.rung);
      return [
        at.outcome,
        rung,
        at.on,
        at.waits ? 'a licensed professional first' : (at.dueOn ?? ''),
      ];
    }),
  ]),
];

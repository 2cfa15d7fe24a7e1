/** People out of a spreadsheet: all of it or nothing. */
import { isFamilyName, unitIn, yearIn, type Column, type ColumnFields } from './columns';
import { plainly } from './found';
import type { Person } from './person';
import { PERSON_FIELDS, personFrom, type PersonField, type PersonFields } from './personFrom';
import type { SheetRow } from './sheet';

/** What keeps a file out. `line` is null where it is about all of it, `column` where about a line. */
export interface ImportProblem {
  line: number | null;
  column: string | null;
  /** What is wrong and what to do. */
  say: string;
}

/** Somebody of the same name and year of birth is there already, or earlier in the file. */
export interface Double {
  line: number;
  name: string;
  birthYear: number | null;
  /** Whom it doubles: somebody who is kept as they are, or an earlier line. */
  of: 'known' | { line: number };
}

export type Imported =
  | { people: Person[]; doubles: Double[]; problems: [] }
  /** Nothing is imported. */
  | { people: null; doubles: []; problems: ImportProblem[] };

/**
 * The people of these lines, or every problem and nobody. Doubles of `known`, or of an earlier
 * line, are left out and named: those that are there stay as they are. `newId` makes a random id;
 * `today` is an ISO date.
 */
export function importPeople(
  rows: readonly SheetRow[],
  columns: readonly Column[],
  fields: ColumnFields,
  { today, newId, known }: { today: string; newId: () => string; known: readonly Person[] },
): Imported {
  const problems = [...columnProblems(columns, fields)];
  if (problems.length === 0 && rows.length === 0) {
    problems.push({ line: null, column: null, say: 'The file has no line with a person in it.' });
  }
  if (problems.length > 0) return { people: null, doubles: [], problems };
  const people: Person[] = [];
  const doubles: Double[] = [];
  const there = new Map<string, Double['of']>(known.map((one) => [keyOf(one), 'known']));
  for (const { line, cells } of rows) {
    const read = personFrom(fieldsIn(cells, columns, fields), { id: newId(), today });
    if (read.person === null) {
      for (const { field, say } of read.problems)
        problems.push({ line, column: titleOf(columns, fields, field), say });
      continue;
    }
    const { person } = read;
    const of = there.get(keyOf(person));
    if (of === undefined) {
      people.push(person);
      there.set(keyOf(person), { line });
    } else doubles.push({ line, name: person.name, birthYear: person.birthYear, of });
  }
  if (problems.length > 0) return { people: null, doubles: [], problems };
  return { people, doubles, problems: [] };
}

/** Two lines of one name and year are one person; case, accents and spaces aside. */
const keyOf = ({ name, birthYear }: Person): string => `${plainly(name)}|${birthYear ?? ''}`;

const titleOf = (columns: readonly Column[], fields: ColumnFields, field: PersonField) =>
  columns[fields.indexOf(field)]?.title ?? null;

function columnProblems(columns: readonly Column[], fields: ColumnFields): ImportProblem[] {
  const problems: ImportProblem[] = [];
  if (!fields.includes('name')) {
    const say = 'No column is chosen for the name. Choose the one that has it.';
    problems.push({ line: null, column: null, say });
  }
  for (const field of PERSON_FIELDS) {
    if (field === 'name') continue;
    const of = columns.filter((_, at) => fields[at] === field).map(({ title }) => `"${title}"`);
    if (of.length < 2) continue;
    const say = `${of.join(' and ')} are chosen for the same thing. Leave out all but one.`;
    problems.push({ line: null, column: null, say });
  }
  return problems;
}

/** What a line says of a person. */
function fieldsIn(
  cells: readonly string[],
  columns: readonly Column[],
  fields: ColumnFields,
): PersonFields {
  const given: PersonFields = { name: '' };
  const family: string[] = [];
  fields.forEach((field, at) => {
    const cell = cells[at] ?? '';
    const title = columns[at]?.title ?? '';
    if (field === null || cell.trim() === '') return;
    if (field !== 'name') given[field] = asTyped(field, cell, title);
    else if (isFamilyName(title)) family.push(cell);
    else given.name = `${given.name} ${cell}`.trim();
  });
  // Many lists have the family name first, and nobody is called so beside the bar.
  given.name = [given.name, ...family].join(' ').trim();
  return given;
}

/** A date of birth is its year; a bare number takes the unit of its title. */
function asTyped(field: PersonField, cell: string, title: string): string {
  if (field === 'birthYear') return yearIn(cell) ?? cell;
  const isLength = field === 'stature' || field === 'knee';
  const unit = isLength && /^\s*\d+(?:[.,]\d+)?\s*$/.test(cell) ? unitIn(title) : null;
  return unit === null ? cell : `${cell.trim()} ${unit}`;
}

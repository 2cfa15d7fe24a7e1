/** The columns of a list of people: which field each holds, and their titles in both directions. */
import type { PersonField } from './personFrom';
import { plainly } from './found';

/** A column of a spreadsheet, with the first of what stands in it. */
export interface Column {
  /** As it stands in the file, or its number where the file has no titles. */
  title: string;
  samples: string[];
}

/** What each column holds, null where it is left out. Columns of `name` are joined, family names last. */
export type ColumnFields = (PersonField | null)[];

/** The titles that Sayso writes. */
export const TITLES: Readonly<Record<PersonField, string>> = {
  name: 'Name',
  squad: 'Squad',
  birthYear: 'Year of birth',
  sex: 'Sex',
  stature: 'Stature',
  knee: 'Knee height',
  angleTool: 'Angles read with',
  mindText: 'To mind',
  guardianAgreedOn: 'Guardian agreed on',
};

/** Titles that others write, English and Spanish, without case and accents and units. */
const KNOWN: Readonly<Record<PersonField, readonly string[]>> = {
  name: [
    ...['name', 'full name', 'athlete', 'athlete name', 'player', 'first name', 'given name'],
    ...['forename', 'last name', 'surname', 'family name', 'nombre', 'nombres', 'apellido'],
    ...['apellidos', 'nombre completo', 'atleta', 'deportista'],
  ],
  squad: ['squad', 'team', 'group', 'class', 'equipo', 'grupo', 'clase'],
  birthYear: [
    ...['year of birth', 'birth year', 'birthyear', 'year born', 'born', 'yob', 'dob', 'birthday'],
    ...['date of birth', 'birth date', 'birthdate', 'ano de nacimiento', 'fecha de nacimiento'],
    'nacimiento',
  ],
  sex: ['sex', 'gender', 'sexo', 'genero'],
  stature: ['stature', 'height', 'estatura', 'altura', 'talla'],
  knee: ['knee', 'knee height', 'rodilla', 'altura de la rodilla'],
  angleTool: ['angles read with', 'angle tool', 'tool'],
  mindText: [
    ...['to mind', 'notes', 'note', 'comments', 'cautions', 'medical notes', 'injuries'],
    ...['notas', 'observaciones', 'lesiones'],
  ],
  guardianAgreedOn: ['guardian agreed on', 'consent', 'consent date', 'parental consent'],
};
const FIELDS = Object.keys(KNOWN) as PersonField[];

/** Without case, accents and what stands in brackets: "Height (cm)" is "height". */
const bare = (title: string): string =>
  plainly(title)
    .replace(/[([].*?[)\]]/g, ' ')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

const fieldOf = (title: string): PersonField | null =>
  FIELDS.find((field) => KNOWN[field].includes(bare(title))) ?? null;

const FAMILY = ['last name', 'surname', 'family name', 'apellido', 'apellidos'];

/** Whether a column with this title has the family name alone. */
export const isFamilyName = (title: string): boolean => FAMILY.includes(bare(title));

/** Whether a line of cells is a line of titles: one of them is known, and none is a number. */
export const areTitles = (cells: readonly string[]): boolean =>
  cells.some((cell) => fieldOf(cell) !== null) && !cells.some((cell) => /^\s*\d/.test(cell));

/**
 * What each column probably holds, by its title, else by what stands in it: a year, else a text as
 * the name where no title is one. Each field but the name once. To be looked at before an import.
 */
export function guessColumns(columns: readonly Column[]): ColumnFields {
  const taken = new Set<PersonField>();
  const take = (field: PersonField | null): PersonField | null => {
    if (field === null || (field !== 'name' && taken.has(field))) return null;
    taken.add(field);
    return field;
  };
  const guessed = columns.map(({ title }) => take(fieldOf(title)));
  const fill = (field: PersonField, fits: (sample: string) => boolean) => {
    if (taken.has(field)) return;
    const at = columns.findIndex(
      ({ samples }, index) => guessed[index] === null && samples.length > 0 && samples.every(fits),
    );
    if (at >= 0) guessed[at] = take(field);
  };
  fill('birthYear', (sample) => yearIn(sample) !== null);
  fill('name', (sample) => /\p{L}/u.test(sample) && !/\d/.test(sample));
  return guessed;
}

/** The year of a date with its year in four digits, or null: no more of it is kept. */
export function yearIn(text: string): string | null {
  const written =
    /^((?:19|20)\d\d)(?:[-/.]\d{1,2}[-/.]\d{1,2}(?:[T ].*)?)?$/.exec(text.trim()) ??
    /^\d{1,2}[-/. ]\d{1,2}[-/. ]((?:19|20)\d\d)$/.exec(text.trim());
  return written?.[1] ?? null;
}

/** The unit that a title names in brackets, for numbers that have none: "Height (cm)" gives cm. */
export const unitIn = (title: string): string | null =>
  /[([]\s*(mm|cm|m|in|ft)\.?\s*[)\]]/i.exec(title)?.[1]?.toLowerCase() ?? null;

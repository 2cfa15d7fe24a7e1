/** A person out of what somebody typed, or what stood in a spreadsheet. */
import { SEXES, type Sex } from '../athlete';
import { ANGLE_TOOLS, type AngleTool } from '../findings';
import { KNEE, readLength, STATURE, type Measure } from '../measuring/length';
import type { Person } from './person';

/** What can be said of a person, as text; a name is enough, and what is left out is not known. */
export interface PersonFields {
  name: string;
  squad?: string | undefined;
  birthYear?: string | undefined;
  sex?: string | undefined;
  stature?: string | undefined;
  knee?: string | undefined;
  angleTool?: string | undefined;
  mindText?: string | undefined;
  guardianAgreedOn?: string | undefined;
}
export type PersonField = keyof PersonFields;
export const PERSON_FIELDS: readonly PersonField[] = [
  ...(['name', 'squad', 'birthYear', 'sex', 'stature', 'knee'] as const),
  ...(['angleTool', 'mindText', 'guardianAgreedOn'] as const),
];

/** What is wrong with a field, and what to do. */
export interface FieldProblem {
  field: PersonField;
  say: string;
}

export type PersonRead =
  { person: Person; problems: [] } | { person: null; problems: FieldProblem[] };

/** Longest name or squad, in characters as people count them. */
const NAME_MOST = 80;
/** A screenful beside the bar. */
const MIND_MOST = 500;
/** Ages that an athlete may have, as the command line takes them. */
const AGE_YEARS = { from: 5, to: 110 } as const;

/**
 * Reads a person with the id `id` on the ISO date `today`: the person, or every problem, each with
 * its field. Spaces around and doubled are dropped, accents composed (NFC); lengths are read as
 * `readLength` does and kept in whole tenths of a millimetre.
 *
 * @example personFrom({ name: 'Quib Marn', birthYear: '2013' }, { id: 'a', today: '2031-03-01' })
 */
export function personFrom(
  fields: PersonFields,
  { id, today, isInvented = false }: { id: string; today: string; isInvented?: boolean },
): PersonRead {
  const problems: FieldProblem[] = [];
  const read = <T>(field: PersonField, reading: (text: string) => T): T | null => {
    const text = tidy(fields[field] ?? '', field === 'mindText');
    if (text === '') return null;
    try {
      mustBeReadable(text);
      return reading(text);
    } catch (problem) {
      if (!(problem instanceof RangeError)) throw problem;
      problems.push({ field, say: problem.message });
      return null;
    }
  };
  const name = read('name', (text) => named(text, 'A name'));
  if (name === null && problems.length === 0) {
    problems.push({ field: 'name', say: 'There is no name. Type one.' });
  }
  const person: Person = {
    id,
    name: name ?? '',
    squad: read('squad', (text) => named(text, 'The name of a squad')),
    birthYear: read('birthYear', (text) => birthYearOf(text, today)),
    sex: read('sex', sexOf),
    statureMillimetres: read('stature', (text) => lengthOf(text, STATURE)),
    kneeMillimetres: read('knee', (text) => lengthOf(text, KNEE)),
    angleTool: read('angleTool', toolOf),
    mindText: read('mindText', (text) => short(text, MIND_MOST, 'What to keep in mind')) ?? '',
    guardianAgreedOn: read('guardianAgreedOn', (text) => agreedOn(text, today)),
    isInvented,
  };
  return problems.length === 0 ? { person, problems: [] } : { person: null, problems };
}

/** Line ends stay where text may have several lines; other white space is one space. */
function tidy(text: string, hasLines: boolean): string {
  const composed = text.normalize('NFC').replace(/\r\n?/g, '\n');
  if (!hasLines) return composed.replace(/[\p{Zs}\t\n]+/gu, ' ').trim();
  return composed
    .replace(/[\p{Zs}\t]+/gu, ' ')
    .replace(/ ?\n ?/g, '\n')
    .trim();
}

/**
 * Characters that nobody types in a name: controls, halves of a character, and those that turn
 * the direction of what follows, so that a text reads as another (Unicode Standard Annex 9,
 * explicit directional embeddings, overrides and isolates; Unicode Technical Report 36).
 */
const NEVER = /[\p{Cs}\u202A-\u202E\u2066-\u2069\u200B\u2028\u2029\uFEFF]|(?!\n)\p{Cc}/u;

function mustBeReadable(text: string): void {
  const [never] = NEVER.exec(text) ?? [];
  if (never === undefined) return;
  const code = (never.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
  throw new RangeError(
    `There is a character in it that cannot be seen (U+${code}). Delete the text and type it anew.`,
  );
}

/** Enough to know it again. */
const start = (text: string): string =>
  text.length > LENGTH_MOST ? `${text.slice(0, LENGTH_MOST)}…` : text;

function named(text: string, what: string): string {
  if (!/[\p{L}\p{N}]/u.test(text)) {
    throw new RangeError(`"${start(text)}" has no letter. Type a name.`);
  }
  return short(text, NAME_MOST, what);
}

function short(text: string, most: number, what: string): string {
  const length = [...text].length;
  if (length <= most) return text;
  throw new RangeError(`${what} has at most ${most} characters; this has ${length}. Shorten it.`);
}

function birthYearOf(text: string, today: string): number {
  if (!/^\d{4}$/.test(text)) {
    throw new RangeError(
      `"${start(text)}" is no year of birth. Write its four digits, such as 2009.`,
    );
  }
  const year = Number(text);
  const now = Number(today.slice(0, 4));
  const [from, to] = [now - AGE_YEARS.to, now - AGE_YEARS.from];
  if (year >= from && year <= to) return year;
  throw new RangeError(`A year of birth is ${from} to ${to}, not ${text}. Check its digits.`);
}

const SEX_WORDS: Readonly<Record<Sex, readonly string[]>> = {
  female: ['female', 'f', 'woman', 'girl'],
  male: ['male', 'm', 'man', 'boy'],
};

function sexOf(text: string): Sex {
  const said = text.toLowerCase();
  const sex = SEXES.find((each) => SEX_WORDS[each].includes(said));
  if (sex !== undefined) return sex;
  throw new RangeError(`"${start(text)}" is not known. Write female or male, or leave it empty.`);
}

function toolOf(text: string): AngleTool {
  const said = text
    .toLowerCase()
    .replace(/^by (?=eye$)/, '')
    .replace(' ', '-');
  const tool = ANGLE_TOOLS.find((each) => each === said);
  if (tool !== undefined) return tool;
  throw new RangeError(`"${start(text)}" is no tool for angles. Write ${ANGLE_TOOLS.join(', ')}.`);
}

/** Text of more than this is no length; a long one is not searched by patterns. */
const LENGTH_MOST = 40;

function lengthOf(text: string, measure: Measure): number {
  if (text.length > LENGTH_MOST) {
    throw new RangeError(
      `That is no length. Write a number and its unit, such as ${measure.example}.`,
    );
  }
  return readLength(text, measure);
}

/** An ISO date that is on the calendar and not after today. */
function agreedOn(text: string, today: string): string {
  const [year = NaN, month = NaN, day = NaN] = /^\d{4}-\d{2}-\d{2}$/.test(text)
    ? text.split('-').map(Number)
    : [];
  const date = new Date(Date.UTC(year, month - 1, day));
  if (Number.isNaN(date.getTime()) || date.toISOString().slice(0, 10) !== text) {
    throw new RangeError(
      `"${start(text)}" is no date. Write year, month and day, such as ${today}.`,
    );
  }
  if (text <= today) return text;
  throw new RangeError(`${text} is still to come. Note the day on which the guardian agreed.`);
}

import { readFileSync } from 'node:fs';
import { blocksFor, SEXES, type Athlete } from '../domain/athlete';
import { ANGLE_TOOLS, type AngleTool } from '../domain/findings';
import { DEFAULT_SETTINGS, WORDS, type SessionSettings } from '../domain/log';
import {
  BELL_HANDLE,
  BLOCK,
  KNEE,
  readLength,
  SOLE,
  STATURE,
  type Measure,
} from '../domain/measuring/length';
import type { CueBook, DrillId, EquipmentId } from '../domain/script';
import { Refused } from './refused';

/** What a file of `--athlete` says. */
export interface AthleteFile {
  settings: SessionSettings;
  athlete?: Athlete;
  angleTool?: AngleTool;
  /** Equipment that is not in this gym. */
  missing?: EquipmentId[];
  /** Drills that the coach allowed alone. */
  allowedAlone?: DrillId[];
}

/** A length is written with its unit under its own name, or as a number of millimetres. */
const LENGTHS = {
  stature: STATURE,
  knee: KNEE,
  sole: SOLE,
  bellHandle: BELL_HANDLE,
} as const satisfies Record<string, Measure>;
type LengthName = keyof typeof LENGTHS;

const AGE_YEARS = { from: 5, to: 110 } as const;

type NumberSetting = Exclude<keyof SessionSettings, 'words'>;

/** What each setting may be: an angle that is never asked about, a number for pain, a cap. */
const WITHIN: Record<NumberSetting, { from: number; to: number }> = {
  passLineDegrees: { from: 20, to: 200 },
  painGoesOnUpTo: { from: 0, to: 10 },
  painRefersAbove: { from: 0, to: 10 },
  areaMinutes: { from: 1, to: 120 },
  ladderSets: { from: 1, to: 60 },
};
const SETTINGS = Object.keys(WITHIN) as NumberSetting[];
const KNOWN = [
  ...SETTINGS,
  ...[...Object.keys(LENGTHS), 'blocks'].flatMap((name) => [name, `${name}Millimetres`]),
  ...['words', 'ageYears', 'sex', 'angleTool', 'missingEquipment', 'allowedAlone'],
];

/**
 * Settings that differ from the usual, what is known of the athlete and the bell, what the gym
 * lacks and what may be done alone. Without a path: the usual ones and nothing.
 * @throws Refused where the file is no JSON object, or says what is not known or cannot be.
 */
export function readAthleteFile(path: string | undefined, book: CueBook): AthleteFile {
  if (path === undefined) return { settings: DEFAULT_SETTINGS };
  try {
    return read(parsed(readFileSync(path, 'utf8')), book);
  } catch (problem) {
    throw new Refused(`${path}: ${(problem as Error).message}`);
  }
}

type Given = Record<string, unknown>;

function parsed(text: string): Given {
  const given: unknown = JSON.parse(text);
  if (typeof given !== 'object' || given === null || Array.isArray(given)) {
    throw new RangeError('must hold one object, such as {"passLineDegrees": 150}.');
  }
  const unknown = Object.keys(given).find((name) => !KNOWN.includes(name));
  if (unknown !== undefined) {
    throw new RangeError(`"${unknown}" is not known. Known: ${KNOWN.join(', ')}.`);
  }
  return given as Given;
}

function read(given: Given, book: CueBook): AthleteFile {
  const settings = settingsOf(given);
  const length = (name: LengthName) =>
    oneOf(given, name, (value, unit) => lengthOf(name, value, LENGTHS[name], unit));
  const athlete: Athlete = known({
    statureMillimetres: length('stature'),
    kneeMillimetres: length('knee'),
    soleMillimetres: length('sole'),
    bellHandleMillimetres: length('bellHandle'),
    blocksMillimetres: oneOf(given, 'blocks', blocksOf),
    ageYears: ageOf(given.ageYears),
    sex: nameIn(SEXES, 'sex', given.sex),
  });
  // What is given must give a height, or nobody would learn why nothing is said.
  blocksFor(athlete);
  const angleTool = nameIn(ANGLE_TOOLS, 'angleTool', given.angleTool);
  const missing = idsIn(Object.keys(book.equipment), 'missingEquipment', given.missingEquipment);
  const allowedAlone = idsIn(Object.keys(book.drills), 'allowedAlone', given.allowedAlone);
  return {
    settings,
    ...(Object.keys(athlete).length > 0 && { athlete }),
    ...(angleTool !== undefined && { angleTool }),
    ...(missing !== undefined && { missing }),
    ...(allowedAlone !== undefined && { allowedAlone }),
  };
}

/** The usual settings with those that are given; the two lines of pain must not cross. */
function settingsOf(given: Given): SessionSettings {
  const words = nameIn(WORDS, 'words', given.words) ?? DEFAULT_SETTINGS.words;
  const settings: SessionSettings = { ...DEFAULT_SETTINGS, words };
  for (const name of SETTINGS) {
    if (!(name in given)) continue;
    const value = given[name];
    const { from, to } = WITHIN[name];
    if (typeof value !== 'number' || !(value >= from && value <= to)) {
      throw new RangeError(`${name} must be a number, ${from} to ${to}.`);
    }
    settings[name] = value;
  }
  const { painGoesOnUpTo, painRefersAbove } = settings;
  if (painGoesOnUpTo > painRefersAbove) {
    throw new RangeError(
      `painGoesOnUpTo (${painGoesOnUpTo}) must not be above painRefersAbove (${painRefersAbove}).`,
    );
  }
  return settings;
}

/** The fields that have a value. */
const known = <T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };

/** What stands under a name, or under that name in millimetres, but not under both. */
function oneOf<T>(
  given: Given,
  name: string,
  reading: (value: unknown, unit: '' | ' mm') => T,
): T | undefined {
  const inMillimetres = `${name}Millimetres`;
  if (!(inMillimetres in given)) return name in given ? reading(given[name], '') : undefined;
  if (name in given) throw new RangeError(`Give ${name} or ${inMillimetres}, not both.`);
  return reading(given[inMillimetres], ' mm');
}

function lengthOf(name: string, value: unknown, measure: Measure, unit: '' | ' mm'): number {
  if (typeof value !== 'number' && (typeof value !== 'string' || unit !== '')) {
    throw new RangeError(
      unit === ''
        ? `${name} must be a length, such as ${measure.example}.`
        : `${name}Millimetres must be a number of millimetres.`,
    );
  }
  try {
    return readLength(`${value}${unit}`, measure);
  } catch (problem) {
    throw new RangeError(`${name}: ${(problem as Error).message}`, { cause: problem });
  }
}

function blocksOf(value: unknown, unit: '' | ' mm'): number[] {
  if (!Array.isArray(value)) {
    throw new RangeError(
      'blocks must be a list with each block at hand, such as ["10 cm", "5 cm"].',
    );
  }
  return value.map((each: unknown) => lengthOf('blocks', each, BLOCK, unit));
}

function ageOf(value: unknown): number | undefined {
  if (value === undefined) return undefined;
  if (typeof value !== 'number' || !(value >= AGE_YEARS.from && value <= AGE_YEARS.to)) {
    throw new RangeError(`ageYears must be a number, ${AGE_YEARS.from} to ${AGE_YEARS.to}.`);
  }
  return value;
}

/** A list of ids that are all known. */
function idsIn(ids: string[], field: string, value: unknown): string[] | undefined {
  if (value === undefined) return undefined;
  if (!Array.isArray(value)) {
    throw new RangeError(`${field} must be a list of ids, such as ["${ids[0]}"].`);
  }
  return value.map((each: unknown) => {
    const known = ids.find((id) => id === each);
    if (known !== undefined) return known;
    throw new RangeError(
      `${field}: ${JSON.stringify(each)} is not known. Known: ${ids.join(', ')}.`,
    );
  });
}

function nameIn<T extends string>(
  names: readonly T[],
  field: string,
  value: unknown,
): T | undefined {
  if (value === undefined) return undefined;
  const known = names.find((name) => name === value);
  if (known === undefined) throw new RangeError(`${field} is one of ${names.join(', ')}.`);
  return known;
}

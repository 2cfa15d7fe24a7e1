import { existsSync } from 'node:fs';
import { isAbsolute, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs, type ParseArgsConfig } from 'node:util';
import { CueError, loadBook } from '../cues/fromFolder';
import { hasPhones, isShippedVoice } from '../cues/languages';
import { printed } from '../cues/problem';
import type { CueBook, Routine } from '../domain/script';
import { Refused, WrongUsage } from './refused';

/** One verb of the command line. `run` gives the exit status. */
export interface Verb {
  does: string;
  usage: string;
  run(args: string[]): Promise<number> | number;
}

/** One JSON value a line on standard output. */
export const answer = (value: unknown): void => console.log(JSON.stringify(value));

export const SCRIPTS = fileURLToPath(new URL('../../scripts-cues', import.meta.url));

export interface Parsed {
  /** Text options that were given. */
  values: Record<string, string | undefined>;
  positionals: string[];
  /** Text options that may be given more than once, in their order. */
  lists: Record<string, string[]>;
}

/**
 * Reads text options (`--at x` or `--at=x`) and the rest.
 * @throws WrongUsage where an option is unknown or lacks its value.
 */
export function parse(args: string[], options: string[], lists: string[] = []): Parsed {
  const config: ParseArgsConfig = {
    args,
    allowPositionals: true,
    options: Object.fromEntries([
      ...[...options, 'language'].map((name) => [name, { type: 'string' }] as const),
      ...lists.map((name) => [name, { type: 'string', multiple: true }] as const),
    ]),
  };
  try {
    const { values, positionals } = parseArgs(config);
    const isList = ([name]: [string, unknown]) => lists.includes(name);
    const given = Object.entries(values);
    return {
      values: Object.fromEntries(given.filter((each) => !isList(each))) as Parsed['values'],
      lists: Object.fromEntries(given.filter(isList)) as Parsed['lists'],
      positionals,
    };
  } catch (problem) {
    throw new WrongUsage((problem as Error).message);
  }
}

const read = new Map<string, CueBook>();

/** The book of a language, read once. @throws Refused with every problem where the scripts are broken. */
export function bookOf(language = 'en'): CueBook {
  try {
    const book = read.get(language) ?? loadBook(SCRIPTS, language);
    read.set(language, book);
    return book;
  } catch (problem) {
    if (!(problem instanceof CueError)) throw problem;
    const problems = problem.problems.map((one) => ({
      ...one,
      file: shownPath(one.file, SCRIPTS),
    }));
    throw new Refused(problems.map(printed).join('\n'));
  }
}

/** A file as seen from where the command runs, else from `folder`, where it lies beneath. */
export function shownPath(file: string, folder: string): string {
  const from = [process.cwd(), folder].map((base) => relative(base, file));
  return from.find((path) => path !== '' && !path.startsWith('..') && !isAbsolute(path)) ?? file;
}

/** @throws Refused where the ear on the device does not know the language. */
export function mustBeHeard({ language }: CueBook): void {
  if (!hasPhones(language))
    throw new Refused(`The recogniser hears no "${language}" yet: write the words as text.`);
}

/** @throws Refused where the shipped voice does not speak the language. */
export function mustBeSpoken({ language }: CueBook): void {
  if (!isShippedVoice(language))
    throw new Refused(`The shipped voice speaks no "${language}" yet: leave out --sound.`);
}

/** @throws WrongUsage where none is named, Refused with the known ones where it is unknown. */
export function routineOf(book: CueBook, id: string | undefined): Routine {
  const known = Object.keys(book.routines).join(', ');
  if (id === undefined) throw new WrongUsage(`Name a routine: ${known}.`);
  const routine = book.routines[id];
  if (routine === undefined) {
    throw new Refused(`There is no routine "${id}". Known: ${known}.`);
  }
  return routine;
}

/** @throws WrongUsage where more was given than the verb takes. */
export function onlyOne(positionals: string[]): string | undefined {
  if (positionals.length > 1) {
    throw new WrongUsage(`Too much: ${positionals.slice(1).join(' ')}.`);
  }
  return positionals[0];
}

/** @throws Refused where there is no such file. */
export function mustExist(path: string): string {
  if (!existsSync(path)) throw new Refused(`${path}: there is no such file.`);
  return path;
}

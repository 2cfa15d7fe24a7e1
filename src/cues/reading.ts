import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { z } from 'zod';
import { CueError, type Problem } from './problem';
import { checksFileSchema } from './schemas/check';
import { drillSchema } from './schemas/drill';
import { equipmentSchema } from './schemas/equipment';
import { ladderSchema } from './schemas/ladder';
import { linesSchema } from './schemas/lines';
import { routineSchema } from './schemas/routine';
import { vocabularySchema } from './schemas/vocabulary';
import { warmUpSchema } from './schemas/warmUp';
import { parsed, type SourceFile } from './sourceFile';

/** Every file of one language as read, each still knowing its lines. */
export interface Sources {
  checks: SourceFile<z.infer<typeof checksFileSchema>>[];
  drills: SourceFile<z.infer<typeof drillSchema>>[];
  ladders: SourceFile<z.infer<typeof ladderSchema>>[];
  routines: SourceFile<z.infer<typeof routineSchema>>[];
  /** A language without any has no folder of them. */
  warmUps: SourceFile<z.infer<typeof warmUpSchema>>[];
  equipment: SourceFile<z.infer<typeof equipmentSchema>>;
  lines: SourceFile<z.infer<typeof linesSchema>>[];
  vocabulary: SourceFile<z.infer<typeof vocabularySchema>>;
}

const FOLDERS = ['checks', 'drills', 'ladders', 'routines'];

/**
 * Reads files of one kind; what is wrong comes back in `problems`, never thrown. Files are read at
 * each call, but a text that was parsed before is not parsed again: that takes most of the time.
 */
function readerOf<T>(schema: z.ZodType<T>): (file: string) => SourceFile<T> {
  const known = new Map<string, (file: string) => SourceFile<T>>();
  return (file) => {
    const text = readFileSync(file, 'utf8');
    const source = known.get(text) ?? parsed(text, schema);
    known.set(text, source);
    return source(file);
  };
}

const READ = {
  checks: readerOf(checksFileSchema),
  drill: readerOf(drillSchema),
  ladder: readerOf(ladderSchema),
  routine: readerOf(routineSchema),
  warmUp: readerOf(warmUpSchema),
  equipment: readerOf(equipmentSchema),
  lines: readerOf(linesSchema),
  vocabulary: readerOf(vocabularySchema),
};

/** The languages that have scripts, by folder name. */
export const languagesOf = (folder: string): string[] =>
  existsSync(folder)
    ? readdirSync(folder, { withFileTypes: true })
        .filter((entry) => entry.isDirectory())
        .map((entry) => entry.name)
        .sort()
    : [];

/** Reads every file of a language. Throws CueError where a file or the language is missing. */
export function readSources(folder: string, language: string): Sources {
  const at = join(folder, language);
  const known = languagesOf(folder);
  if (!known.includes(language)) {
    const problem =
      known.length === 0
        ? 'there are no cue scripts here; a folder with one folder for each language is needed'
        : `there are no scripts for "${language}"; known: ${known.join(', ')}`;
    throw new CueError([{ file: folder, line: 1, field: 'language', problem }]);
  }
  const kind = <T>(name: string, read: (file: string) => SourceFile<T>): SourceFile<T>[] =>
    yamlFiles(join(at, name)).map(read);
  const missing = [...FOLDERS, 'equipment.yaml', 'vocabulary.yaml', 'says.yaml']
    .filter((name) => !existsSync(join(at, name)))
    .map((name): Problem => ({ file: join(at, name), line: 1, field: '', problem: 'is missing' }));
  if (missing.length > 0) throw new CueError(missing);
  return {
    checks: kind('checks', READ.checks),
    drills: kind('drills', READ.drill),
    ladders: kind('ladders', READ.ladder),
    routines: kind('routines', READ.routine),
    warmUps: existsSync(join(at, 'warm-ups')) ? kind('warm-ups', READ.warmUp) : [],
    lines: ['says.yaml', 'lines.yaml', 'outcome.yaml', 'group.yaml', 'homework.yaml']
      .map((name) => join(at, name))
      .filter((file) => existsSync(file))
      .map(READ.lines),
    equipment: READ.equipment(join(at, 'equipment.yaml')),
    vocabulary: READ.vocabulary(join(at, 'vocabulary.yaml')),
  };
}

/** The files of a language, for a build that watches them; none where there is no such language. */
export const filesOf = (folder: string, language: string): string[] => {
  const at = join(folder, language);
  if (!existsSync(at)) return [];
  return readdirSync(at, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => join(at, name));
};

const yamlFiles = (folder: string): string[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => join(folder, name));

export const everySource = (sources: Sources): SourceFile<unknown>[] => [
  ...sources.checks,
  ...sources.drills,
  ...sources.ladders,
  ...sources.routines,
  ...sources.warmUps,
  ...sources.lines,
  sources.equipment,
  sources.vocabulary,
];

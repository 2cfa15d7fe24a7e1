import { isMap, isNode, isPair, LineCounter, parseDocument, type Document } from 'yaml';
import type { z } from 'zod';
import { wordsOf, type Problem } from './problem';

export type FieldPath = readonly (string | number)[];

/** One YAML file, read and checked against its schema, which still knows its lines. */
export interface SourceFile<T> {
  file: string;
  /** Null where the file cannot be used; `problems` says why. */
  value: T | null;
  problems: Problem[];
  /** A problem at a field of this file. */
  problemAt(path: FieldPath, problem: string): Problem;
}

/** Reads the text of one file of the scripts; what is wrong comes back in `problems`. */
export const sourceOf = <T>(file: string, text: string, schema: z.ZodType<T>): SourceFile<T> =>
  parsed(text, schema)(file);

/** The same for a text that may stand in several files: parsed once, told of each. */
export function parsed<T>(text: string, schema: z.ZodType<T>): (file: string) => SourceFile<T> {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines });
  const at = (path: FieldPath, problem: string): Omit<Problem, 'file'> => ({
    line: lines.linePos(offsetOf(document, path)).line || 1,
    field: path.join('.'),
    problem,
  });
  const of =
    (value: T | null, problems: Omit<Problem, 'file'>[]) =>
    (file: string): SourceFile<T> => ({
      ...{ file, value },
      problems: problems.map((problem) => ({ file, ...problem })),
      problemAt: (path, problem) => ({ file, ...at(path, problem) }),
    });
  const broken = document.errors.map((error) => ({
    line: error.linePos?.[0].line ?? 1,
    field: '',
    problem: `is not valid YAML: ${error.message.split('\n')[0] ?? ''}`,
  }));
  if (broken.length > 0) return of(null, broken);
  const checked = schema.safeParse(document.toJS());
  if (checked.success) return of(checked.data, []);
  const problems = checked.error.issues.map((issue) => {
    const key = issue.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : [];
    return at([...(issue.path as (string | number)[]), ...key], wordsOf(issue));
  });
  return of(null, problems);
}

/** Where a field stands; for a missing one, where the group it is missing from stands. */
const offsetOf = (document: Document, path: FieldPath): number => {
  for (let length = path.length; length > 0; length -= 1) {
    const parent: unknown =
      length === 1 ? document.contents : document.getIn(path.slice(0, length - 1), true);
    if (isMap(parent)) {
      const pair = parent.items.find(
        ({ key }) => String(isNode(key) ? key.toJSON() : key) === String(path[length - 1]),
      );
      if (pair !== undefined && isPair(pair) && isNode(pair.key)) return pair.key.range?.[0] ?? 0;
    }
    const node: unknown = document.getIn(path.slice(0, length), true);
    if (isNode(node)) return node.range?.[0] ?? 0;
  }
  return isNode(document.contents) ? (document.contents.range?.[0] ?? 0) : 0;
};

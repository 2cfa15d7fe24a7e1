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
export function sourceOf<T>(file: string, text: string, schema: z.ZodType<T>): SourceFile<T> {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines });
  const problemAt = (path: FieldPath, problem: string): Problem => ({
    file,
    line: lines.linePos(offsetOf(document, path)).line || 1,
    field: path.join('.'),
    problem,
  });
  const broken = document.errors.map((error) => ({
    file,
    line: error.linePos?.[0].line ?? 1,
    field: '',
    problem: `is not valid YAML: ${error.message.split('\n')[0] ?? ''}`,
  }));
  if (broken.length > 0) return { file, value: null, problems: broken, problemAt };
  const checked = schema.safeParse(document.toJS());
  if (checked.success) return { file, value: checked.data, problems: [], problemAt };
  const problems = checked.error.issues.map((issue) => {
    const key = issue.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : [];
    return problemAt([...(issue.path as (string | number)[]), ...key], wordsOf(issue));
  });
  return { file, value: null, problems, problemAt };
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

import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterAll } from 'vitest';
import { checkFolder } from '../../src/cues/checking';
import type { Lexicon } from '../../src/cues/soundingAlike';

const made: string[] = [];
afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true });
});

/** A copy of the shipped scripts that a test may break. */
export function copyOfScripts(): string {
  const folder = mkdtempSync(join(tmpdir(), 'scripts-cues-'));
  made.push(folder);
  cpSync('scripts-cues', folder, { recursive: true });
  return folder;
}

/** Changes `from` into `to` in one file of a copy, once; fails where `from` does not stand there. */
export function change(folder: string, file: string, from: string | RegExp, to: string): void {
  const path = join(folder, 'en', file);
  const before = readFileSync(path, 'utf8');
  const after = before.replace(from, to);
  if (after === before) throw new Error(`${file} holds no ${String(from)} to change.`);
  writeFileSync(path, after);
}

export interface Found {
  file: string;
  field: string;
  problem: string;
  /** The line itself, as it stands in the file. */
  line: string;
}

/** What is wrong with a copy in which one thing was changed. */
export function problemsAfter(file: string, from: string | RegExp, to: string): Found[] {
  const folder = copyOfScripts();
  change(folder, file, from, to);
  return problemsOf(folder);
}

/** What is wrong with a copy: nothing is with what is shipped (shipped.test.ts). */
export function problemsOf(folder: string, lexiconFor?: (words: string[]) => Lexicon): Found[] {
  return checkFolder(folder, 'en', lexiconFor).map(({ file: path, line, field, problem }) => ({
    file: relative(join(folder, 'en'), path),
    field,
    problem,
    line: readFileSync(path, 'utf8').split('\n')[line - 1]?.trim() ?? '',
  }));
}

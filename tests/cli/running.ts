import { spawn } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

export interface Ran {
  status: number | null;
  /** Standard output as it came. */
  output: string;
  errors: string;
  /** Standard output, one JSON value a line. */
  answers: Record<string, unknown>[];
}

/** Runs the command line as a script would. */
export function sayso(...args: string[]): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', 'tsx', 'src/cli/main.ts', ...args], {
      cwd: root,
    });
    let output = '';
    let errors = '';
    child.stdout.on('data', (piece: Buffer) => (output += piece.toString()));
    child.stderr.on('data', (piece: Buffer) => (errors += piece.toString()));
    child.on('error', reject);
    child.on('close', (status) => {
      const lines = output.split('\n').filter((line) => line.startsWith('{'));
      resolve({
        status,
        output,
        errors,
        answers: lines.map((line) => JSON.parse(line) as Record<string, unknown>),
      });
    });
  });
}

const folder = mkdtempSync(join(tmpdir(), 'sayso-cli-'));
/** A file of its own for a test. */
export function written(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}
export const unwritten = (name: string): string => join(folder, name);

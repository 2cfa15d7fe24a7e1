import { spawn } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { format } from 'node:util';
import { vi } from 'vitest';
import { run } from '../../src/cli/running';

const root = fileURLToPath(new URL('../..', import.meta.url));

export interface Ran {
  status: number | null;
  /** Standard output as it came. */
  output: string;
  errors: string;
  /** Standard output, one JSON value a line. */
  answers: Record<string, unknown>[];
}

/** Runs the command line as a script would, in a process of its own. */
export function saysoProcess(...args: string[]): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', 'tsx', 'src/cli/main.ts', ...args], {
      cwd: root,
    });
    let output = '';
    let errors = '';
    child.stdout.on('data', (piece: Buffer) => (output += piece.toString()));
    child.stderr.on('data', (piece: Buffer) => (errors += piece.toString()));
    child.on('error', reject);
    child.on('close', (status) => resolve(ran(status, output, errors)));
  });
}

let last: Promise<unknown> = Promise.resolve();

/** The same without a process, which takes longer to start than most verbs to run. */
export function sayso(...args: string[]): Promise<Ran> {
  const next = last.then(() => here(args));
  last = next.catch(() => undefined);
  return next;
}

async function here(args: string[]): Promise<Ran> {
  let output = '';
  let errors = '';
  const log = vi.spyOn(console, 'log').mockImplementation((...said: unknown[]) => {
    output += `${format(...said)}\n`;
  });
  const error = vi.spyOn(console, 'error').mockImplementation((...said: unknown[]) => {
    errors += `${format(...said)}\n`;
  });
  try {
    return ran(await run(args), output, errors);
  } finally {
    log.mockRestore();
    error.mockRestore();
  }
}

function ran(status: number | null, output: string, errors: string): Ran {
  const lines = output.split('\n').filter((line) => line.startsWith('{'));
  const answers = lines.map((line) => JSON.parse(line) as Record<string, unknown>);
  return { status, output, errors, answers };
}

const folder = mkdtempSync(join(tmpdir(), 'sayso-cli-'));
/** A file of its own for a test. */
export function written(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}
export const unwritten = (name: string): string => join(folder, name);

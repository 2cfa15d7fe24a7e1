import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ServingTrouble } from './trouble.mjs';

/** What the built page is made of, below the project folder. */
const SOURCES = [
  'index.html',
  'package-lock.json',
  'public',
  'scripts-cues',
  'src',
  'tsconfig.json',
  'vite.config.ts',
];
/** Written beside the built page, so that emptying the folder forgets it too. */
const STAMP = '.built';
const STACK_LINES = /\n\s+at .*/g;

/**
 * A name for the state of all sources: it changes when any of them does. Files that the build
 * itself copies in (those that git ignores) are left out; the lockfile stands for them.
 * @param {string} root the project folder
 */
export function sourcesHash(root) {
  const copied = copiedAssets(root);
  const hash = createHash('sha256');
  /** @param {string} path */
  const add = (path) => {
    const full = join(root, path);
    if (!existsSync(full) || copied.some((start) => `${path}/`.startsWith(start))) return;
    if (statSync(full).isDirectory()) {
      for (const name of readdirSync(full).sort()) add(`${path}/${name}`);
    } else {
      const content = readFileSync(full);
      hash.update(`${path}\0${content.length}\0`).update(content);
    }
  };
  SOURCES.forEach(add);
  return hash.digest('hex');
}

/**
 * Whether `dist` was built from the sources as they are now.
 * @param {string} root the project folder
 */
export function isBuilt(root) {
  const stamp = join(root, 'dist', STAMP);
  return existsSync(stamp) && readFileSync(stamp, 'utf8') === sourcesHash(root);
}

/**
 * Builds the static page into `dist`, with the recogniser's and the voice's files copied in
 * (vite.config.ts does that). The packages must be installed. Throws a ServingTrouble with the
 * cause.
 * @param {string} root the project folder
 */
export async function build(root) {
  const hash = sourcesHash(root);
  const { build: viteBuild } = await import('vite');
  try {
    await viteBuild({ root, configFile: join(root, 'vite.config.ts'), logLevel: 'silent' });
  } catch (error) {
    const why = (error instanceof Error ? error.message : String(error)).replace(STACK_LINES, '');
    throw new ServingTrouble(
      `The page could not be built.\n${why}\nAfter a change of a cue script, this says what is wrong with it: npm run -s sayso -- scripts`,
    );
  }
  writeFileSync(join(root, 'dist', STAMP), hash);
}

/**
 * Builds only where a source has changed.
 * @param {string} root the project folder
 * @param {(line: string) => void} [log]
 */
export async function buildChanged(root, log = console.log) {
  if (isBuilt(root)) return;
  log('Building the page (half a minute the first time) ...');
  await build(root);
}

/** @param {string} root */
function copiedAssets(root) {
  const ignored = join(root, '.gitignore');
  if (!existsSync(ignored)) return [];
  return readFileSync(ignored, 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('public/'))
    .map((line) => (line.endsWith('/') ? line : `${line}/`));
}

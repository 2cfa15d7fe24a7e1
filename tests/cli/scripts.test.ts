import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { shownPath } from '../../src/cli/verb';
import { sayso } from './running';

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
});

/** Scripts with a ladder that names a drill that is not there. */
function broken(where: string): string {
  mkdirSync('.cache', { recursive: true });
  const folder = mkdtempSync(where);
  folders.push(folder);
  cpSync('scripts-cues', folder, { recursive: true });
  const file = join(folder, 'en/ladders/hinge.yaml');
  writeFileSync(
    file,
    readFileSync(file, 'utf8').replace('drill: bench-hinge', 'drill: sofa-hinge'),
  );
  return folder;
}

it('names a file as seen from the folder that was checked, where that lies elsewhere', async () => {
  const { status, answers } = await sayso('scripts', broken(join(tmpdir(), 'sayso-scripts-')));
  expect(status).toBe(1);
  expect(answers).toMatchObject([{ file: join('en', 'ladders', 'hinge.yaml') }]);
  expect(answers[0]?.problem).toContain('no hinge drill of that name');
});

it('names a file as seen from where the command runs, where it lies there', async () => {
  const { answers } = await sayso('scripts', broken('.cache/scripts-'));
  expect(answers[0]?.file).toMatch(/^\.cache\/scripts-\w+\/en\/ladders\/hinge\.yaml$/);
});

it('refuses a language that is not there without a path of this machine', async () => {
  const { status, errors } = await sayso('plan', 'hinge', '--language', 'xx');
  expect(status).toBe(1);
  expect(errors).toMatch(/^scripts-cues:1 language: there are no scripts for "xx"; known: en, es/);
});

it.each([
  ['/a/b/c.yaml', '/a', 'b/c.yaml'],
  ['/elsewhere/c.yaml', '/a', '/elsewhere/c.yaml'],
])('keeps the whole path only of what lies in neither place: %s', (file, folder, path) => {
  expect(shownPath(file, folder)).toBe(path);
});

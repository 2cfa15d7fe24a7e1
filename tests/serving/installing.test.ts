import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  OLDEST_NODE,
  checkNode,
  explainInstall,
  installMissing,
  missingPackages,
} from '../../src/serving/installing.mjs';
import manifest from '../../package.json';

let root = '';
const lock = (packages: Record<string, object>) => JSON.stringify({ packages });
const WANTED = {
  '': { name: 'house' },
  'node_modules/speaks': { version: '1.2.0' },
  'node_modules/only-elsewhere': { version: '3.0.0', optional: true },
};
const put = (name: string, version: string) => {
  mkdirSync(join(root, 'node_modules', name), { recursive: true });
  writeFileSync(join(root, 'node_modules', name, 'package.json'), '{}');
  writeFileSync(
    join(root, 'node_modules/.package-lock.json'),
    lock({ [`node_modules/${name}`]: { version } }),
  );
};

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'sayso-installing-'));
  writeFileSync(join(root, 'package-lock.json'), lock(WANTED));
});
afterEach(() => rmSync(root, { recursive: true }));

describe('what is missing', () => {
  it('is everything in a fresh clone, save packages for other platforms', () => {
    expect(missingPackages(root)).toEqual(['node_modules/speaks']);
  });

  it('is nothing once the versions of the lockfile are there', () => {
    put('speaks', '1.2.0');
    expect(missingPackages(root)).toEqual([]);
  });

  it('is a package of another version, and one whose folder is gone', () => {
    put('speaks', '1.1.0');
    expect(missingPackages(root)).toEqual(['node_modules/speaks']);
    put('speaks', '1.2.0');
    rmSync(join(root, 'node_modules/speaks'), { recursive: true });
    expect(missingPackages(root)).toEqual(['node_modules/speaks']);
  });

  it('cannot be told without a lockfile, and says how to get it back', () => {
    rmSync(join(root, 'package-lock.json'));
    expect(() => missingPackages(root)).toThrow('git checkout package-lock.json');
  });
});

describe('installing', () => {
  it('runs npm ci once, and not at all where nothing is missing', async () => {
    const runs: string[][] = [];
    const run = async (words: string[]) => {
      runs.push(words);
      put('speaks', '1.2.0');
      return { code: 0, said: '' };
    };
    const log = () => {};
    expect(await installMissing(root, { run, log })).toBe(true);
    expect(await installMissing(root, { run, log })).toBe(false);
    expect(runs).toHaveLength(1);
    expect(runs[0]?.slice(0, 2)).toEqual(['ci', '--ignore-scripts']);
  });

  it('fails with what to do, not with the words of npm', async () => {
    const run = async () => ({ code: 1, said: 'npm error code ENOTFOUND\nnpm error ...' });
    await expect(installMissing(root, { run, log: () => {} })).rejects.toThrow(
      'Connect and run the command again',
    );
  });

  it.each([
    [{ code: null, said: '' }, 'npm was not found'],
    [{ code: 1, said: 'npm error code ENOSPC' }, 'disk is full'],
    [{ code: 243, said: 'npm error code EACCES' }, 'may not be written'],
    [{ code: 1, said: 'something else' }, 'Remove node_modules'],
  ])('explains %o', (end, words) => {
    expect(explainInstall(end)).toContain(words);
  });
});

describe('the version of Node', () => {
  it.each(['18.20.4', '20.18.3'])('%s is refused, and told what is needed', (version) => {
    expect(() => checkNode(version)).toThrow(`Sayso needs Node ${OLDEST_NODE} or newer`);
  });

  it.each(['20.19.0', '22.1.0', '25.0.0'])('%s is accepted', (version) => {
    expect(() => checkNode(version)).not.toThrow();
  });

  it('is the one that the package names', () => {
    expect(manifest.engines.node).toBe(`>=${OLDEST_NODE}`);
  });
});

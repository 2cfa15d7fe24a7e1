import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { ServingTrouble } from '../../src/serving/trouble.mjs';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const PACKAGES = ['chromium', 'chromium-driver'];
const BY_HAND =
  'Install Chromium or Chrome by hand and run the tests again, or name it: CHROMIUM=<its path> npm test';

/**
 * @typedef {object} Machine
 * @property {Record<string, string | undefined>} env
 * @property {(path: string) => boolean} isProgram
 * @property {(program: string, words: string[]) => { ok: boolean, said: string }} run shows nothing
 * @property {boolean} isRoot
 */

/** @type {Machine} */
const thisMachine = {
  env: process.env,
  isProgram: (path) => {
    try {
      accessSync(path, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  },
  run: (program, words) => {
    const end = spawnSync(program, words, {
      encoding: 'utf8',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
    return { ok: end.status === 0, said: `${end.stdout ?? ''}${end.stderr ?? end.error ?? ''}` };
  },
  isRoot: process.getuid?.() === 0,
};

/**
 * The Chromium to test with: the one that CHROMIUM names, else one on the PATH, else installed
 * from Debian's packages. Throws a ServingTrouble that says what to do where none can be had.
 * @param {(line: string) => void} [log]
 * @param {Machine} [machine]
 * @returns {string} its path
 */
export function findChromium(log = console.log, machine = thisMachine) {
  const named = machine.env.CHROMIUM;
  if (named) {
    if (machine.isProgram(named)) return starting(named, machine);
    throw new ServingTrouble(
      `CHROMIUM names ${named}, which is no program. Correct it or leave it out.`,
    );
  }
  const found = onPath(NAMES, machine);
  if (found) return starting(found, machine);
  install(log, machine);
  const installed = onPath(NAMES, machine);
  if (installed) return starting(installed, machine);
  throw new ServingTrouble(`The packages were installed but brought no Chromium. ${BY_HAND}`);
}

/**
 * @param {(line: string) => void} log
 * @param {Machine} machine
 */
function install(log, machine) {
  if (!onPath(['apt-get'], machine)) {
    throw new ServingTrouble(
      `No Chromium was found, and this system has no apt-get to install it with. ${BY_HAND}`,
    );
  }
  if (!machine.isRoot && !machine.run('sudo', ['-n', 'true']).ok) {
    throw new ServingTrouble(
      `No Chromium was found, and installing it needs an administrator. Run: sudo apt-get install ${PACKAGES.join(' ')}`,
    );
  }
  log(`Installing ${PACKAGES.join(' and ')} (no Chromium was found; a minute or two) ...`);
  /** @param {string[]} words */
  const apt = (words) =>
    machine.isRoot
      ? machine.run('apt-get', words)
      : machine.run('sudo', ['-n', 'apt-get', ...words]);
  apt(['update']);
  const end = apt(['install', '-y', '--no-install-recommends', ...PACKAGES]);
  if (end.ok) return;
  const last = end.said.trim().split('\n').slice(-5).join('\n');
  throw new ServingTrouble(`Chromium could not be installed. ${BY_HAND}\n${last}`);
}

/**
 * @param {string} path
 * @param {Machine} machine
 */
function starting(path, machine) {
  const { ok, said } = machine.run(path, ['--version']);
  if (ok) return path;
  throw new ServingTrouble(`${path} does not start: ${said.trim()}\n${BY_HAND}`);
}

/**
 * @param {string[]} names
 * @param {Machine} machine
 */
function onPath(names, { env, isProgram }) {
  const folders = (env.PATH ?? '').split(delimiter).filter(Boolean);
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find(isProgram);
}

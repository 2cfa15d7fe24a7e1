import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ServingTrouble } from './trouble.mjs';

/** Oldest Node that runs Sayso; the same as `engines` in package.json. */
export const OLDEST_NODE = '20.19';

/**
 * Refuses a Node that is too old for the packages used.
 * @param {string} version as in `process.versions.node`
 */
export function checkNode(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [needMajor = 0, needMinor = 0] = OLDEST_NODE.split('.').map(Number);
  if (major > needMajor || (major === needMajor && minor >= needMinor)) return;
  throw new ServingTrouble(
    `Sayso needs Node ${OLDEST_NODE} or newer; this is Node ${version}. Install a newer Node and run the command again.`,
  );
}

/**
 * The packages of the lockfile that are missing or of another version, at most three.
 * Packages for other platforms may be missing.
 * @param {string} root the project folder
 * @returns {string[]} paths below the project folder, such as `node_modules/react`
 */
export function missingPackages(root) {
  const wanted = packagesIn(join(root, 'package-lock.json'));
  if (!wanted) {
    throw new ServingTrouble(
      'package-lock.json is missing or cannot be read. Take it from the project again: git checkout package-lock.json',
    );
  }
  const installed = packagesIn(join(root, 'node_modules/.package-lock.json')) ?? {};
  const missing = [];
  for (const [path, { version, optional }] of Object.entries(wanted)) {
    if (path === '' || (optional && !installed[path])) continue;
    const there =
      installed[path]?.version === version && existsSync(join(root, path, 'package.json'));
    if (!there) missing.push(path);
    if (missing.length === 3) break;
  }
  return missing;
}

/**
 * Installs from the lockfile where something is missing; does nothing, quickly, where all is there.
 * @param {string} root the project folder
 * @param {{ run?: typeof runNpm, log?: (line: string) => void }} [options]
 * @returns {Promise<boolean>} whether it installed
 */
export async function installMissing(root, { run = runNpm, log = console.log } = {}) {
  const missing = missingPackages(root);
  if (missing.length === 0) return false;
  log(
    existsSync(join(root, 'node_modules'))
      ? `Installing packages again; missing or of another version: ${missing.join(', ')} ...`
      : 'Installing packages (half a minute the first time) ...',
  );
  // Without a network npm would be silent for over a minute before it says so.
  const patience = ['--fetch-retry-mintimeout=2000', '--fetch-retry-maxtimeout=8000'];
  const words = ['ci', '--ignore-scripts', '--include=dev', '--prefer-offline', ...patience];
  const end = await run(words, root);
  if (end.code === 0) return true;
  throw new ServingTrouble(explainInstall(end));
}

/**
 * Says in plain words why npm failed and what to do.
 * @param {{ code: number | null, said: string }} end
 */
export function explainInstall({ code, said }) {
  if (code === null) {
    return 'npm was not found. It comes with Node: install Node from its usual source and run the command again.';
  }
  if (/ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ETIMEDOUT|ENETUNREACH|ECONNRESET|ENOTCACHED/.test(said)) {
    return 'The packages could not be fetched: the package registry was not reached. The first run needs the network; after it Sayso works offline. Connect and run the command again.';
  }
  if (/ENOSPC/.test(said)) {
    return 'The disk is full. The packages need about 500 MB; make room and run the command again.';
  }
  if (/EACCES|EPERM/.test(said)) {
    return 'This folder may not be written to. Run the command as the owner of the folder.';
  }
  return `Installing failed: npm ended with ${code}; its words are above. Remove node_modules and run the command again.`;
}

/**
 * @param {string} file a lockfile
 * @returns {Record<string, { version?: string, optional?: boolean }> | null}
 */
function packagesIn(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8')).packages ?? null;
  } catch {
    return null;
  }
}

/**
 * Runs npm in a folder, showing what it says. `code` is null where npm is not there.
 * @param {string[]} words
 * @param {string} folder
 * @returns {Promise<{ code: number | null, said: string }>}
 */
function runNpm(words, folder) {
  const script = process.env.npm_execpath;
  const own = script !== undefined && /\.c?js$/.test(script);
  const child = own
    ? spawn(process.execPath, [script, ...words], { cwd: folder })
    : spawn('npm', words, { cwd: folder, shell: process.platform === 'win32' });
  let said = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.on('data', (/** @type {Buffer} */ piece) => {
      said += piece;
      process.stderr.write(piece);
    });
  }
  return new Promise((resolve) => {
    child.on('error', () => resolve({ code: null, said }));
    child.on('close', (code) => resolve({ code: code ?? 1, said }));
  });
}

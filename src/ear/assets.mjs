// Plain modules, so that they run before anything is built.
import { createHash } from 'node:crypto';
import { copyFile, mkdir, readFile, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync, gzipSync } from 'node:zlib';

/**
 * @typedef {object} EarAsset
 * @property {string} from Path inside node_modules.
 * @property {string} to Path inside the public folder.
 * @property {string} sha256 of the file as the package ships it.
 * @property {true} [packed] It is copied as gzip: 14 MB become 4.
 */

const modules = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'node_modules');

/**
 * What the ear needs besides the committed head, as the packages ship it.
 * @type {EarAsset[]}
 */
export const EAR_ASSETS = [
  {
    from: '@moonshine-ai/moonshine-js/dist/model/tiny/quantized/encoder_model.onnx',
    to: 'ear/encoder.onnx',
    sha256: 'c6fc4b7bc5af75c0591fd157a1f3829b533d18e9769a888fd95a62e470dd4f4a',
  },
  {
    from: '@ricky0123/vad-web/dist/silero_vad_v5.onnx',
    to: 'ear/vad.onnx',
    sha256: '2623a2953f6ff3d2c1e61740c6cdb7168133479b267dfef114a4a3cc5bdd788f',
  },
  {
    from: 'onnxruntime-web/dist/ort-wasm-simd-threaded.wasm',
    to: 'ear/ort/runtime.wasm.gz',
    sha256: '3398c10d07d229bd91b364548e130e0e51a8e5704b88c7c083ebbeb78842dee2',
    packed: true,
  },
];

/** Where a package's file lies. @param {EarAsset} asset */
export const installedPath = (asset) => join(modules, asset.from);

/** The page fetches these, and holds each against its hash; the small head may be missing. */
const FETCHED = [
  'ort/runtime.wasm.gz',
  'vad.onnx',
  'small-head.onnx',
  'encoder.onnx',
  'phone-head.onnx',
];

/** @param {Uint8Array} bytes */
const sha256Of = (bytes) => createHash('sha256').update(bytes).digest('hex');

/**
 * @param {string} path
 * @param {boolean} [packed] whether to hash what is packed in it
 * @returns {Promise<string | null>} null where there is no such file, or it cannot be unpacked
 */
const hashOf = async (path, packed = false) => {
  try {
    const bytes = await readFile(path);
    return sha256Of(packed ? gunzipSync(bytes) : bytes);
  } catch {
    return null;
  }
};

/**
 * What the page will fetch from `publicDir`/ear, as it lies there now.
 * @param {string} publicDir
 * @returns {Promise<Record<string, { bytes: number, sha256: string }>>} by path under ear/
 */
export async function earFiles(publicDir) {
  /** @type {Record<string, { bytes: number, sha256: string }>} */
  const files = {};
  for (const path of FETCHED) {
    const file = join(publicDir, 'ear', path);
    const sha256 = await hashOf(file);
    if (sha256 !== null) files[path] = { bytes: (await stat(file)).size, sha256 };
  }
  return files;
}

/**
 * Copies the ear's models into `publicDir`/ear; a file already there with the right
 * hash is left alone.
 * @param {string} publicDir
 * @param {EarAsset[]} [assets]
 * @returns {Promise<void>}
 * @throws Error naming the file and what to do, where one is missing or has another hash.
 */
export async function copyEarAssets(publicDir, assets = EAR_ASSETS) {
  for (const asset of assets) {
    const target = join(publicDir, asset.to);
    if ((await hashOf(target, asset.packed)) === asset.sha256) continue;
    const source = installedPath(asset);
    const found = await hashOf(source);
    if (found === null)
      throw new Error(`${asset.from} is not installed: run "npm ci", then start again.`);
    if (found !== asset.sha256)
      throw new Error(
        `${asset.from} is not the file that was tested (SHA-256 ${found}, wanted ${asset.sha256}): ` +
          'delete node_modules and run "npm ci"; after a deliberate upgrade of the package, ' +
          'change the hash in src/ear/assets.mjs once the ear tests pass.',
      );
    await mkdir(dirname(target), { recursive: true });
    if (asset.packed) await writeFile(target, gzipSync(await readFile(source), { level: 9 }));
    else await copyFile(source, target);
  }
}

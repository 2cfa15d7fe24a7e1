// Plain modules, so that they run before anything is built.
import { createHash } from 'node:crypto';
import { copyFile, mkdir, readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * @typedef {object} EarAsset
 * @property {string} from Path inside node_modules.
 * @property {string} to Path inside the public folder.
 * @property {string} sha256
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
];

/** Where a package's file lies. @param {EarAsset} asset */
export const installedPath = (asset) => join(modules, asset.from);

/** @param {string} path @returns {Promise<string | null>} null where there is no such file */
const hashOf = async (path) => {
  try {
    return createHash('sha256')
      .update(await readFile(path))
      .digest('hex');
  } catch {
    return null;
  }
};

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
    if ((await hashOf(target)) === asset.sha256) continue;
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
    await copyFile(source, target);
  }
}

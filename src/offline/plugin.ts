import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build, type Plugin } from 'vite';
import type { BuiltFiles } from './keeping';

/** Beside the page, so that all of its folder is in its reach. */
export const SERVICE_WORKER = 'sw.js';

/** Lies in the built folder and no session needs it. */
const NOT_KEPT = /(^|\/)\.|\.md$|COPYING|^run-screen\.png$|^sw\.js$/;

/** Every file of a built folder that is to work without network, by its path, in order. */
export function filesToKeep(folder: string): BuiltFiles {
  const paths = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => !NOT_KEPT.test(path))
    .sort();
  const files: BuiltFiles = {};
  for (const path of paths) {
    const content = readFileSync(join(folder, path));
    const sha256 = createHash('sha256').update(content).digest('hex');
    files[path] = { bytes: content.length, sha256 };
  }
  return files;
}

/** Builds the service worker of a built folder into it; it holds the hashes of all other files. */
export async function buildServiceWorker(folder: string, entry: string): Promise<void> {
  await build({
    configFile: false,
    publicDir: false,
    logLevel: 'silent',
    define: { FILES: JSON.stringify(filesToKeep(folder)) },
    build: {
      target: 'es2023',
      outDir: folder,
      emptyOutDir: false,
      // One plain script: not every browser takes a module here.
      rolldownOptions: {
        input: entry,
        output: { format: 'iife', entryFileNames: SERVICE_WORKER },
      },
    },
  });
}

/**
 * Builds the service worker once all other files lie in the folder: it differs where any of them
 * does, and so a new version is found.
 */
export function saysoOffline(entry: string): Plugin {
  let folder = '';
  return {
    name: 'sayso-offline',
    apply: 'build',
    configResolved({ root, build: { outDir } }) {
      folder = resolve(root, outDir);
    },
    // Not where the build failed; what is in the public folder lies there already.
    writeBundle: () => buildServiceWorker(folder, entry),
  };
}

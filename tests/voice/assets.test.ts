import { mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { copyVoiceAssets } from '../../src/voice/assets.mjs';

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'sayso-voice-'));
});
afterEach(() => rm(folder, { recursive: true }));

const wasm = () => join(folder, 'voice', 'flite.wasm.gz');

it('puts a runnable voice and its licence beside the page', async () => {
  await copyVoiceAssets(folder);
  const bytes = new Uint8Array(gunzipSync(await readFile(wasm())));
  expect([...bytes.slice(0, 4)]).toEqual([0, 0x61, 0x73, 0x6d]);
  expect(await readFile(join(folder, 'voice', 'flite-COPYING.txt'), 'utf8')).toContain(
    'Permission',
  );
});

it('leaves a good copy alone and replaces a damaged one', async () => {
  await copyVoiceAssets(folder);
  const first = (await stat(wasm())).mtimeMs;
  await copyVoiceAssets(folder);
  expect((await stat(wasm())).mtimeMs).toBe(first);
  await writeFile(wasm(), 'half a download');
  await copyVoiceAssets(folder);
  expect(gunzipSync(await readFile(wasm())).length).toBeGreaterThan(20_000_000);
});

it('clears away what an older version of the page had there, which would be kept with the rest', async () => {
  await copyVoiceAssets(folder);
  await writeFile(join(folder, 'voice', 'flite.wasm'), 'unpacked');
  await copyVoiceAssets(folder);
  expect((await readdir(join(folder, 'voice'))).sort()).toEqual([
    'flite-COPYING.txt',
    'flite.wasm.gz',
  ]);
});

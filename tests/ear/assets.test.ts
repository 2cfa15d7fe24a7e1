import { createHash } from 'node:crypto';
import { mkdtemp, readFile, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { copyEarAssets, earFiles, EAR_ASSETS } from '../../src/ear/assets.mjs';

const publicDir = () => mkdtemp(join(tmpdir(), 'sayso-assets-'));
const hashOf = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

test('the models are copied once, and copied again where they were damaged', async () => {
  const folder = await publicDir();
  await copyEarAssets(folder);
  const vad = join(folder, 'ear/vad.onnx');
  const { mtimeMs } = await stat(vad);
  await copyEarAssets(folder);
  expect((await stat(vad)).mtimeMs).toBe(mtimeMs);
  await writeFile(vad, 'cut off');
  await copyEarAssets(folder);
  for (const { to, sha256, packed } of EAR_ASSETS) {
    const bytes = await readFile(join(folder, to));
    expect(hashOf(packed ? gunzipSync(bytes) : bytes)).toBe(sha256);
  }
  // What the page holds each file against, once it has come, is what lies there.
  const files = await earFiles(folder);
  expect(Object.keys(files)).toEqual(['ort/runtime.wasm.gz', 'vad.onnx', 'encoder.onnx']);
  for (const [path, { bytes, sha256 }] of Object.entries(files)) {
    const there = await readFile(join(folder, 'ear', path));
    expect({ bytes: there.length, sha256: hashOf(there) }).toEqual({ bytes, sha256 });
  }
});

test('a package with another model is refused with what to do', async () => {
  const [encoder] = EAR_ASSETS;
  const changed = [{ ...encoder!, sha256: 'f'.repeat(64) }];
  await expect(copyEarAssets(await publicDir(), changed)).rejects.toThrow(
    /encoder_model\.onnx is not the file that was tested .* run "npm ci"/,
  );
});

test('a package that is not installed is named', async () => {
  const missing = [{ from: 'no-such/model.onnx', to: 'ear/x.onnx', sha256: '' }];
  await expect(copyEarAssets(await publicDir(), missing)).rejects.toThrow(
    'no-such/model.onnx is not installed: run "npm ci"',
  );
});

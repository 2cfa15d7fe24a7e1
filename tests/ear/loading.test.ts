import { readFileSync } from 'node:fs';
import * as runtime from 'onnxruntime-web';
import { describe, expect, test } from 'vitest';
import { EAR_ASSETS, installedPath } from '../../src/ear/assets.mjs';
import { loadEar, type EarFiles } from '../../src/ear/loading';
import type { Runtime } from '../../src/ear/phoneReader';
import { FileDamagedError, FileMissingError } from '../../src/offline/fetching';

describe('loading the ear', () => {
  const asset = (to: string) =>
    new Uint8Array(readFileSync(installedPath(EAR_ASSETS.find((each) => each.to === to)!)));
  const head = new Uint8Array(readFileSync('public/ear/phone-head.onnx'));
  const every: Record<string, Uint8Array> = {
    'ort/runtime.wasm.gz': new Uint8Array(10),
    'vad.onnx': asset('ear/vad.onnx'),
    // Any model does for the order; what it hears with is tried elsewhere.
    'small-head.onnx': asset('ear/vad.onnx'),
    'encoder.onnx': asset('ear/encoder.onnx'),
    'phone-head.onnx': head,
  };
  /** The runtime of Node needs no file; the property that the browser's takes is left alone. */
  const over = { ...runtime, env: { ...runtime.env, wasm: { ...runtime.env.wasm } } } as Runtime;
  const load = (bad: Record<string, Error> = {}, without: string[] = []) => {
    const asked: string[] = [];
    const progress: number[] = [];
    const there = Object.entries(every).filter(([path]) => !without.includes(path));
    const files: EarFiles = Object.fromEntries(
      there.map(([path, bytes]) => [path, { bytes: bytes.length, sha256: '' }]),
    );
    const parts = loadEar({
      runtime: over,
      files,
      fetchFile: (path, file, arrived) => {
        asked.push(path);
        const problem = bad[path];
        if (problem) return Promise.reject(problem);
        arrived?.(file.bytes);
        return Promise.resolve(every[path]!);
      },
      progress: (fraction) => progress.push(fraction),
    });
    return { parts, asked, progress };
  };

  test('the small one is fetched first, and its progress is told to the end', async () => {
    const { parts, asked, progress } = load();
    expect(await parts).toMatchObject({ size: 'small' });
    expect(asked.slice(0, 3).sort()).toEqual([
      'ort/runtime.wasm.gz',
      'small-head.onnx',
      'vad.onnx',
    ]);
    expect(progress.at(-1)).toBe(1);
    expect(await (await parts).stronger).toHaveProperty('make');
    expect(asked).toHaveLength(5);
  });

  test('where the strong one does not come the small one is there, and says why', async () => {
    const { parts } = load({ 'encoder.onnx': new FileMissingError('answered 404') });
    expect(await (await parts).stronger).toMatchObject({ why: 'missing' });
    const other = load({ 'phone-head.onnx': new FileDamagedError('damaged, twice') });
    expect(await (await other.parts).stronger).toMatchObject({ why: 'damaged' });
  });

  test('where the small one does not come the strong one hears', async () => {
    const { parts } = load({ 'small-head.onnx': new FileMissingError('answered 404') });
    expect(await parts).toMatchObject({ size: 'strong', stronger: null });
  });

  test('a page built without the small one hears with the strong one', async () => {
    const { parts, progress } = load({}, ['small-head.onnx']);
    expect(await parts).toMatchObject({ size: 'strong', stronger: null });
    expect(progress.at(-1)).toBe(1);
  });

  test.each(['vad.onnx', 'ort/runtime.wasm.gz'])('without %s nothing hears', async (path) => {
    const { parts } = load({ [path]: new FileMissingError(`${path}: answered 404`) });
    await expect(parts).rejects.toThrow(`${path}: answered 404`);
  });
});

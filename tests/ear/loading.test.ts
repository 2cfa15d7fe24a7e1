import { readFileSync } from 'node:fs';
import * as runtime from 'onnxruntime-web';
import { describe, expect, test } from 'vitest';
import { EAR_ASSETS, installedPath } from '../../src/ear/assets.mjs';
import { loadEar, loadStrong, type EarFiles } from '../../src/ear/loading';
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
    const outside: Parameters<typeof loadStrong>[0] = {
      runtime: over,
      files,
      fetchFile: (path, file, arrived) => {
        asked.push(path);
        const problem = bad[path];
        if (problem) return Promise.reject(problem);
        arrived?.(file.bytes);
        return Promise.resolve(every[path]!);
      },
    };
    const first = () => loadEar({ ...outside, progress: (fraction) => progress.push(fraction) });
    return { first, strong: () => loadStrong(outside), asked, progress };
  };

  test('the small one comes first and alone, and its progress is told to the end', async () => {
    const { first, asked, progress } = load();
    expect(await first()).toMatchObject({ size: 'small' });
    expect(asked.sort()).toEqual(['ort/runtime.wasm.gz', 'small-head.onnx', 'vad.onnx']);
    expect(progress.at(-1)).toBe(1);
  });

  test('the strong one brings the small one with it, to hear beside it', async () => {
    const { strong, asked } = load();
    expect(Object.keys(await strong()).sort()).toEqual(['small', 'strong']);
    expect(asked.sort()).toEqual([
      'encoder.onnx',
      'ort/runtime.wasm.gz',
      'phone-head.onnx',
      'small-head.onnx',
    ]);
  });

  test('where the strong one does not come it is told why', async () => {
    const missing = load({ 'encoder.onnx': new FileMissingError('answered 404') });
    await expect(missing.strong()).rejects.toThrow('answered 404');
    const damaged = load({ 'phone-head.onnx': new FileDamagedError('damaged, twice') });
    await expect(damaged.strong()).rejects.toThrow('damaged, twice');
    const without = load({}, ['phone-head.onnx']);
    await expect(without.strong()).rejects.toThrow('the page was built without it');
  });

  test('where the small one does not come the strong one hears', async () => {
    const { first } = load({ 'small-head.onnx': new FileMissingError('answered 404') });
    expect(await first()).toMatchObject({ size: 'strong' });
  });

  test('a page built without the small one hears with the strong one', async () => {
    const { first, progress } = load({}, ['small-head.onnx']);
    expect(await first()).toMatchObject({ size: 'strong' });
    expect(progress.at(-1)).toBe(1);
  });

  test.each(['vad.onnx', 'ort/runtime.wasm.gz'])('without %s nothing hears', async (path) => {
    const { first } = load({ [path]: new FileMissingError(`${path}: answered 404`) });
    await expect(first()).rejects.toThrow(`${path}: answered 404`);
  });
});

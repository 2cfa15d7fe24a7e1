import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import * as runtime from 'onnxruntime-web';
import { describe, expect, test } from 'vitest';
import { EAR_ASSETS, installedPath } from '../../src/ear/assets.mjs';
import {
  fetchEarFile,
  ModelDamagedError,
  ModelMissingError,
  type EarFile,
} from '../../src/ear/fetching';
import { loadEar, type EarFiles } from '../../src/ear/loading';
import type { Runtime } from '../../src/ear/phoneReader';

const fileOf = (bytes: Uint8Array): EarFile => ({
  bytes: bytes.length,
  sha256: createHash('sha256').update(bytes).digest('hex'),
});

describe('a file of the ear', () => {
  const right = new Uint8Array(5000).map((_, at) => at % 251);
  /** A server whose answers are these, one after the other; and what it was asked. */
  const server = (...answers: (Uint8Array | number | 'breaks off' | 'page')[]) => {
    const caches: (RequestCache | undefined)[] = [];
    const get: typeof fetch = (_, init) => {
      caches.push(init?.cache);
      const answer = answers.shift() ?? 404;
      if (answer === 'page')
        return Promise.resolve(
          new Response('<!doctype html>', { headers: { 'content-type': 'text/html' } }),
        );
      if (typeof answer === 'number') return Promise.resolve(new Response('', { status: answer }));
      const stream = new ReadableStream<Uint8Array>({
        pull: (controller) => {
          if (answer === 'breaks off') return controller.error(new Error('connection lost'));
          // Bytes come in pieces.
          controller.enqueue(answer.slice(0, 1999));
          controller.enqueue(answer.slice(1999));
          controller.close();
        },
      });
      return Promise.resolve(new Response(stream));
    };
    return { get, caches };
  };
  const damaged = right.map((byte, at) => (at === 4000 ? byte ^ 1 : byte));

  test('comes whole, and every piece is told', async () => {
    let arrived = 0;
    const { get, caches } = server(right);
    const file = await fetchEarFile('/a', fileOf(right), {
      fetch: get,
      arrived: (bytes) => (arrived += bytes),
    });
    expect(file).toEqual(right);
    expect(arrived).toBe(5000);
    expect(caches).toEqual(['default']);
  });

  test.each([
    ['with one bit changed', damaged],
    ['cut short', right.slice(0, 4000)],
    ['too long', new Uint8Array([...right, 7])],
  ])('%s is fetched again once, past the cache', async (_, wrong) => {
    let arrived = 0;
    const { get, caches } = server(wrong, right);
    const options = { fetch: get, arrived: (bytes: number) => void (arrived += bytes) };
    expect(await fetchEarFile('/a', fileOf(right), options)).toEqual(right);
    expect(caches).toEqual(['default', 'reload']);
    expect(arrived).toBeGreaterThanOrEqual(5000);
  });

  test('damaged twice is given up, and named', async () => {
    const { get } = server(damaged, damaged, right);
    await expect(fetchEarFile('/ear/vad.onnx', fileOf(right), { fetch: get })).rejects.toThrow(
      new ModelDamagedError('/ear/vad.onnx: arrived damaged, twice.'),
    );
  });

  test.each([404, 'page', 'breaks off'] as const)('that answers %s is missing', async (answer) => {
    const { get } = server(answer);
    const fetched = fetchEarFile('/a', fileOf(right), { fetch: get });
    await expect(fetched).rejects.toThrow(ModelMissingError);
    await expect(fetched).rejects.not.toThrow(ModelDamagedError);
  });

  test('that is packed comes unpacked', async () => {
    const packed = new Uint8Array(gzipSync(right));
    const { get } = server(packed);
    expect(await fetchEarFile('/a', fileOf(packed), { fetch: get })).toEqual(right);
  });
});

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
    const { parts } = load({ 'encoder.onnx': new ModelMissingError('answered 404') });
    expect(await (await parts).stronger).toMatchObject({ why: 'missing' });
    const other = load({ 'phone-head.onnx': new ModelDamagedError('damaged, twice') });
    expect(await (await other.parts).stronger).toMatchObject({ why: 'damaged' });
  });

  test('where the small one does not come the strong one hears', async () => {
    const { parts } = load({ 'small-head.onnx': new ModelMissingError('answered 404') });
    expect(await parts).toMatchObject({ size: 'strong', stronger: null });
  });

  test('a page built without the small one hears with the strong one', async () => {
    const { parts, progress } = load({}, ['small-head.onnx']);
    expect(await parts).toMatchObject({ size: 'strong', stronger: null });
    expect(progress.at(-1)).toBe(1);
  });

  test.each(['vad.onnx', 'ort/runtime.wasm.gz'])('without %s nothing hears', async (path) => {
    const { parts } = load({ [path]: new ModelMissingError(`${path}: answered 404`) });
    await expect(parts).rejects.toThrow(`${path}: answered 404`);
  });
});

import { createHash } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import {
  FileDamagedError,
  FileMissingError,
  fetchFile,
  unpacked,
  type BuiltFile,
} from '../../src/offline/fetching';

const fileOf = (bytes: Uint8Array): BuiltFile => ({
  bytes: bytes.length,
  sha256: createHash('sha256').update(bytes).digest('hex'),
});

describe('a file of the page', () => {
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
    const file = await fetchFile('/a', fileOf(right), {
      fetch: get,
      arrived: (bytes) => (arrived += bytes),
    });
    expect(file.bytes).toEqual(right);
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
    expect((await fetchFile('/a', fileOf(right), options)).bytes).toEqual(right);
    expect(caches).toEqual(['default', 'reload']);
    expect(arrived).toBeGreaterThanOrEqual(5000);
  });

  test('damaged twice is given up, and named', async () => {
    const { get } = server(damaged, damaged, right);
    await expect(fetchFile('/ear/vad.onnx', fileOf(right), { fetch: get })).rejects.toThrow(
      new FileDamagedError('/ear/vad.onnx: arrived damaged, twice.'),
    );
  });

  test.each([404, 'page', 'breaks off'] as const)('that answers %s is missing', async (answer) => {
    const { get } = server(answer);
    const fetched = fetchFile('/a', fileOf(right), { fetch: get });
    await expect(fetched).rejects.toThrow(FileMissingError);
    await expect(fetched).rejects.not.toThrow(FileDamagedError);
  });

  test('that is big does not fill the browser\u2019s own cache as well', async () => {
    const big = new Uint8Array(1_000_001);
    const { get, caches } = server(big);
    await fetchFile('/a', fileOf(big), { fetch: get });
    expect(caches).toEqual(['no-store']);
  });

  test('that is packed is unpacked, any other left as it is', async () => {
    expect(await unpacked(new Uint8Array(gzipSync(right)))).toEqual(right);
    expect(await unpacked(right)).toEqual(right);
  });
});

import { createHash } from 'node:crypto';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import {
  dropOthers,
  keepAll,
  keptFile,
  makeRoom,
  wholeFile,
  type BuiltFiles,
} from '../../src/offline/keeping';

const BASE = 'https://gym.example/sayso/';
const bytesOf = (text: string) => new TextEncoder().encode(text);
const filesOf = (texts: Record<string, string>): BuiltFiles =>
  Object.fromEntries(
    Object.entries(texts).map(([path, text]) => [
      path,
      { bytes: bytesOf(text).length, sha256: createHash('sha256').update(text).digest('hex') },
    ]),
  );

/** Every shelf of the browser, by its name; each holds what lies on it by its address. */
let shelves: Map<string, Map<string, Response>>;
let roomBytes: number;
/** What the server has, and what was asked of it. */
let server: Record<string, string>;
let asked: string[];

const shelfNamed = (name: string) => {
  const there = shelves.get(name) ?? new Map<string, Response>();
  shelves.set(name, there);
  return {
    match: async (key: string | { url: string }) =>
      there.get(typeof key === 'string' ? key : key.url)?.clone(),
    put: async (key: string, response: Response) => {
      roomBytes -= (await response.clone().arrayBuffer()).byteLength;
      if (roomBytes < 0) throw new DOMException('full', 'QuotaExceededError');
      there.set(key, response);
    },
    delete: async (key: string | { url: string }) =>
      there.delete(typeof key === 'string' ? key : key.url),
    keys: async () => [...there.keys()].map((url) => ({ url })),
  };
};

/** One at a time of each name, as the browser's locks do it. */
const locks = () => {
  const last = new Map<string, Promise<unknown>>();
  return {
    request: (name: string, run: () => Promise<unknown>) => {
      const turn = (last.get(name) ?? Promise.resolve()).then(run, run);
      last.set(name, turn);
      return turn;
    },
  };
};

beforeEach(() => {
  shelves = new Map();
  roomBytes = 1e9;
  server = {};
  asked = [];
  vi.stubGlobal('caches', { open: async (name: string) => shelfNamed(name) });
  vi.stubGlobal('navigator', { locks: locks() });
  vi.stubGlobal('fetch', async (address: string) => {
    asked.push(address.slice(BASE.length));
    const text = server[address.slice(BASE.length)];
    return text === undefined
      ? new Response('', { status: 404 })
      : new Response(text, {
          headers: {
            'content-security-policy': "default-src 'self'",
            'content-encoding': 'gzip',
          },
        });
  });
});
afterEach(() => vi.unstubAllGlobals());

const textOf = async (path: string, files: BuiltFiles) =>
  (await keptFile(BASE, path, files[path]!))?.text();

test('a file that the page and its worker ask for at once is fetched once, and never again', async () => {
  server = { 'ear/a.onnx': 'weights' };
  const files = filesOf(server);
  const file = files['ear/a.onnx']!;
  const both = [wholeFile(BASE, 'ear/a.onnx', file), keepAll(BASE, files)] as const;
  const [whole, isAll] = await Promise.all(both);
  expect(whole).toEqual({ bytes: bytesOf('weights'), isKept: true });
  expect(isAll).toBe(true);
  await wholeFile(BASE, 'ear/a.onnx', file);
  expect(asked).toEqual(['ear/a.onnx']);
});

test('a file that was damaged where it is kept is fetched again', async () => {
  server = { 'ear/a.onnx': 'weights' };
  const files = filesOf(server);
  await keepAll(BASE, files);
  const [shelf] = shelves.values();
  for (const key of shelf!.keys()) shelf!.set(key, new Response('weighty'));
  expect(await textOf('ear/a.onnx', files)).toBeUndefined();
  await keepAll(BASE, files);
  expect(await textOf('ear/a.onnx', files)).toBe('weights');
});

test('what a server says of security is kept, how it packed the file is not', async () => {
  server = { 'index.html': '<title>Sayso</title>' };
  const files = filesOf(server);
  await keepAll(BASE, files);
  const kept = await keptFile(BASE, 'index.html', files['index.html']!);
  expect(kept?.headers.get('content-security-policy')).toBe("default-src 'self'");
  expect(kept?.headers.has('content-encoding')).toBe(false);
});

test('the page is kept last, so that it is never there without its scripts', async () => {
  server = { 'index.html': '<p>', 'assets/a.js': 'a long script', 'ear/a.onnx': 'long weights' };
  const files = filesOf({ ...server, 'assets/gone.js': 'a script that the server has no more' });
  await expect(keepAll(BASE, files)).rejects.toThrow('assets/gone.js');
  expect(await textOf('assets/a.js', files)).toBe('a long script');
  expect(await textOf('index.html', files)).toBeUndefined();
});

test('progress goes from what is kept already to all of it', async () => {
  server = { 'a.js': '1234', 'b.js': '123456' };
  const files = filesOf(server);
  await wholeFile(BASE, 'a.js', files['a.js']!);
  const told: [string, number, number][] = [];
  await keepAll(BASE, files, (at) => told.push([at.path, at.keptBytes, at.bytes]));
  expect(told[0]).toEqual(['b.js', 4, 10]);
  expect(told.at(-1)).toEqual(['b.js', 10, 10]);
});

test('without room a file is used all the same, and what was brought makes room again', async () => {
  server = { 'a.js': '1234', 'voice/v': '1234567890' };
  const files = filesOf(server);
  roomBytes = 8;
  expect(await keepAll(BASE, files)).toBe(false);
  expect([...shelves.values()].map(({ size }) => size)).toEqual([0]);
  const whole = await wholeFile(BASE, 'voice/v', files['voice/v']!);
  expect(whole).toEqual({ bytes: bytesOf('1234567890'), isKept: false });
});

test('room is made by the largest file, until there is none', async () => {
  server = { 'a.js': '1234', 'voice/v': '1234567890' };
  const files = filesOf(server);
  await keepAll(BASE, files);
  expect(await makeRoom(BASE)).toBe(true);
  expect(await textOf('voice/v', files)).toBeUndefined();
  expect(await textOf('a.js', files)).toBe('1234');
  expect([await makeRoom(BASE), await makeRoom(BASE)]).toEqual([true, false]);
});

test('a new version fetches only what differs, and each version has its own until the old one goes', async () => {
  server = { 'index.html': 'old', 'ear/a.onnx': 'weights' };
  const old = filesOf(server);
  await keepAll(BASE, old);
  server = { 'index.html': 'new', 'ear/a.onnx': 'weights' };
  const next = filesOf(server);
  asked = [];
  await keepAll(BASE, next);
  expect(asked).toEqual(['index.html']);
  expect(await textOf('index.html', old)).toBe('old');
  expect(await textOf('index.html', next)).toBe('new');
  await dropOthers(BASE, next);
  expect(await textOf('index.html', old)).toBeUndefined();
  expect(await textOf('ear/a.onnx', next)).toBe('weights');
});

test('a page in another folder of the same host keeps its own', async () => {
  server = { 'index.html': 'here', 'beta/index.html': 'there' };
  const beta = `${BASE}beta/`;
  await keepAll(beta, filesOf({ 'index.html': 'there' }));
  await dropOthers(BASE, filesOf({ 'index.html': 'here' }));
  const { 'index.html': file } = filesOf({ 'index.html': 'there' });
  expect(await (await keptFile(beta, 'index.html', file!))?.text()).toBe('there');
});

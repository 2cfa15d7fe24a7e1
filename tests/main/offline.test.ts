// @vitest-environment jsdom
import { createHash } from 'node:crypto';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { createOffline } from '../../src/main/offline';
import type { OfflineState } from '../../src/screens/seat';

const BASE = 'https://gym.example/sayso/';
const BYTES = new TextEncoder().encode('weights');
const FILES = {
  'ear/a.onnx': {
    bytes: BYTES.length,
    sha256: createHash('sha256').update(BYTES).digest('hex'),
  },
};

let isReached: boolean;
let told: OfflineState;
const start = () => {
  const tell = (change: Partial<OfflineState>) => void (told = { ...told, ...change });
  createOffline({ base: BASE, tell, isFree: () => true }).start();
};
const until = (state: OfflineState['state']) => vi.waitFor(() => expect(told.state).toBe(state));

/** A service worker that says what is to be kept. */
const worker = {
  postMessage: (_: unknown, [port]: MessagePort[]) => port?.postMessage(FILES),
};
const registration = {
  ...{ active: worker, waiting: null, installing: null },
  addEventListener: () => undefined,
};
const workers = (registered: Promise<unknown>, known: unknown) => ({
  register: () => registered,
  getRegistration: async () => known,
  ready: Promise.resolve(known),
});
const withWorkers = (given: unknown) => vi.stubGlobal('navigator', { serviceWorker: given });

beforeEach(() => {
  isReached = true;
  told = { state: 'unknown', what: 'page', progress: 0, newVersion: null };
  const shelf = new Map<string, Response>();
  vi.stubGlobal('caches', {
    open: async () => ({
      match: async (key: string) => shelf.get(key)?.clone(),
      put: async (key: string, response: Response) => void shelf.set(key, response),
      delete: async (key: string) => shelf.delete(key),
      keys: async () => [...shelf.keys()].map((url) => ({ url })),
    }),
  });
  vi.stubGlobal('fetch', async () => {
    if (!isReached) throw new TypeError('Failed to fetch');
    return new Response(BYTES);
  });
});
afterEach(() => vi.unstubAllGlobals());

it('a browser without service workers, or an address that it refuses, needs the network each time', async () => {
  withWorkers(undefined);
  start();
  await until('never');
  told.state = 'unknown';
  withWorkers(workers(Promise.reject(new DOMException('certificate', 'SecurityError')), undefined));
  start();
  await until('never');
});

it('what did not arrive is fetched once the network is back', async () => {
  isReached = false;
  withWorkers(workers(Promise.resolve(registration), registration));
  start();
  await until('incomplete');
  expect(told).toMatchObject({ what: 'recogniser', progress: 0 });
  isReached = true;
  window.dispatchEvent(new Event('online'));
  await until('ready');
  expect(told).toMatchObject({ progress: 1 });
});

it('a page that is kept already works, though the server is gone', async () => {
  withWorkers(workers(Promise.resolve(registration), registration));
  start();
  await until('ready');
  told.state = 'unknown';
  isReached = false;
  withWorkers(workers(Promise.reject(new TypeError('Failed to fetch')), registration));
  start();
  await until('ready');
});

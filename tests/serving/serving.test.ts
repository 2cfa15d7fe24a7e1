import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { get as secureGet } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { certificateFor, networkAddresses } from '../../src/serving/certificate.mjs';
import { serveFolder } from '../../src/serving/serving.mjs';

const top = mkdtempSync(join(tmpdir(), 'sayso-serving-'));
const dist = join(top, 'dist');
let port = 0;
let close: () => Promise<void>;

beforeAll(async () => {
  mkdirSync(join(dist, 'assets'), { recursive: true });
  mkdirSync(join(dist, 'ear'));
  writeFileSync(join(top, 'secret.txt'), 'not for you');
  writeFileSync(join(dist, '.built'), 'stamp');
  writeFileSync(join(dist, 'index.html'), '<!doctype html><title>Sayso</title>');
  writeFileSync(join(dist, 'assets/main-abc123.js'), 'export {};');
  writeFileSync(join(dist, 'ear/encoder.onnx'), new Uint8Array([8, 0, 255]));
  writeFileSync(join(dist, 'ear/engine.wasm'), new Uint8Array([0, 97, 115, 109]));
  writeFileSync(join(dist, 'manifest.webmanifest'), '{}');
  writeFileSync(join(dist, 'sw.js'), `// ${'what is kept '.repeat(500)}`);
  ({ port, close } = await serveFolder(dist, { port: 0 }));
});

afterAll(async () => {
  await close();
  rmSync(top, { recursive: true });
});

const at = (path: string, options: RequestInit = {}) =>
  fetch(`http://localhost:${port}${path}`, options);

/** The status of a path sent exactly as written; fetch would tidy it first. */
const statusOfRaw = (path: string) =>
  new Promise<number>((resolve, reject) => {
    request({ host: '127.0.0.1', port, path }, (response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    })
      .on('error', reject)
      .end();
  });

describe('a served folder', () => {
  it.each([
    ['/', 'text/html; charset=utf-8'],
    ['/assets/main-abc123.js', 'text/javascript; charset=utf-8'],
    ['/ear/engine.wasm', 'application/wasm'],
    ['/ear/encoder.onnx', 'application/octet-stream'],
    ['/manifest.webmanifest', 'application/manifest+json'],
    ['/sw.js', 'text/javascript; charset=utf-8'],
  ])('gives %s as %s', async (path, type) => {
    const response = await at(path);
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toBe(type);
    expect(response.headers.get('content-length')).not.toBe('0');
  });

  it('gives the bytes unchanged', async () => {
    const body = await (await at('/ear/encoder.onnx?v=1')).arrayBuffer();
    expect([...new Uint8Array(body)]).toEqual([8, 0, 255]);
  });

  it('answers 404 for what is missing, never another page', async () => {
    for (const path of ['/ear/missing.onnx', '/run', '/assets/', '/assets', '/%E0%A4%A']) {
      const response = await at(path);
      expect([path, response.status]).toEqual([path, 404]);
      expect(await response.text()).not.toContain('<title>');
    }
  });

  it.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/assets/..%2f..%2fsecret.txt',
    '/..%5csecret.txt',
    '//../secret.txt',
    '/.built',
    '/index.html%00.js',
  ])('refuses %s', async (path) => {
    expect(await statusOfRaw(path)).toBe(404);
  });

  it('keeps hashed files for good and asks again for the rest', async () => {
    expect((await at('/assets/main-abc123.js')).headers.get('cache-control')).toContain(
      'immutable',
    );
    const page = await at('/');
    expect(page.headers.get('cache-control')).toBe('no-cache');
    const etag = page.headers.get('etag') ?? '';
    expect((await at('/', { headers: { 'if-none-match': etag } })).status).toBe(304);
    writeFileSync(join(dist, 'index.html'), '<!doctype html><title>Sayso, changed</title>');
    expect((await at('/', { headers: { 'if-none-match': etag } })).status).toBe(200);
  });

  it('answers with a policy without inline script, evaluation, frames or anything from elsewhere', async () => {
    const policy = (await at('/')).headers.get('content-security-policy') ?? '';
    const directives = new Map(
      policy.split('; ').map((one) => [one.split(' ')[0], one.split(' ').slice(1)]),
    );
    expect(directives.get('default-src')).toEqual(["'none'"]);
    expect(directives.get('script-src')).toEqual(["'self'", "'wasm-unsafe-eval'"]);
    expect(directives.get('connect-src')).toEqual(["'self'"]);
    expect(directives.get('frame-ancestors')).toEqual(["'none'"]);
    expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|\*|https?:|data:/);
    // A worker has the policy of its own answer.
    expect((await at('/assets/main-abc123.js')).headers.get('content-security-policy')).toBe(
      policy,
    );
    expect((await at('/')).headers.get('referrer-policy')).toBe('no-referrer');
  });

  it('asks for the service worker each time, so that a new version is found', async () => {
    expect((await at('/sw.js')).headers.get('cache-control')).toBe('no-cache');
  });

  it('packs text where the browser unpacks it, and leaves models as they are', async () => {
    const travelled = async (path: string, encodings: string) => {
      const response = await at(path, { headers: { 'accept-encoding': encodings } });
      return [response.headers.get('content-encoding'), (await response.arrayBuffer()).byteLength];
    };
    const { length } = readFileSync(join(dist, 'sw.js'));
    expect(await travelled('/sw.js', 'gzip, br')).toEqual(['gzip', length]);
    expect(await travelled('/sw.js', 'identity')).toEqual([null, length]);
    expect(await travelled('/ear/encoder.onnx', 'gzip')).toEqual([null, 3]);
  });

  it('answers HEAD without a body and refuses POST', async () => {
    const head = await at('/ear/engine.wasm', { method: 'HEAD' });
    expect(head.headers.get('content-length')).toBe('4');
    expect(await head.text()).toBe('');
    expect((await at('/', { method: 'POST' })).status).toBe(405);
  });

  it('says which port is in use and what to do', async () => {
    await expect(serveFolder(dist, { port })).rejects.toThrow(`Port ${port} is in use`);
  });

  it('takes the next free port where none was asked for', async () => {
    const first = await serveFolder(dist);
    const second = await serveFolder(dist);
    expect(second.port).toBeGreaterThan(first.port);
    await first.close();
    await second.close();
  });
});

describe('for a phone', () => {
  const file = join(top, 'kept/certificate.json');
  const securely = (host: string, securePort: number, ca: string | undefined) =>
    new Promise<number>((resolve, reject) => {
      secureGet({ host, port: securePort, path: '/', ca, agent: false }, (response) => {
        response.resume();
        resolve(response.statusCode ?? 0);
      }).on('error', reject);
    });

  it('serves HTTPS that is refused until the certificate is accepted', async () => {
    const certificate = await certificateFor(file, []);
    const served = await serveFolder(dist, { port: 0, certificate });
    await expect(fetch(`https://localhost:${served.port}/`)).rejects.toThrow();
    expect(await securely('localhost', served.port, certificate.cert)).toBe(200);
    expect(await securely('127.0.0.1', served.port, certificate.cert)).toBe(200);
    await served.close();
  });

  it('keeps the certificate while it names the address and is valid, so a phone asks once', async () => {
    const now = new Date('2030-01-01T00:00:00Z');
    const first = await certificateFor(file, ['192.168.1.20'], now);
    expect(await certificateFor(file, ['192.168.1.20'], now)).toEqual(first);
    const moved = await certificateFor(file, ['10.0.0.7'], now);
    expect(moved.cert).not.toBe(first.cert);
    const later = await certificateFor(file, ['10.0.0.7'], new Date('2030-12-01T00:00:00Z'));
    expect(later.cert).not.toBe(moved.cert);
  });

  it('makes a new certificate where the kept one is damaged', async () => {
    writeFileSync(file, '{ half a file');
    expect((await certificateFor(file, [])).cert).toContain('BEGIN CERTIFICATE');
  });

  it('lists the addresses of the network, not those of this computer alone', () => {
    const address = { netmask: '', mac: '', cidr: null };
    expect(
      networkAddresses({
        lo: [{ ...address, address: '127.0.0.1', family: 'IPv4', internal: true }],
        wifi: [
          { ...address, address: '192.168.1.20', family: 'IPv4', internal: false },
          { ...address, address: 'fe80::1', family: 'IPv6', internal: false, scopeid: 1 },
        ],
      }),
    ).toEqual(['192.168.1.20']);
  });
});

import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { extname, resolve, sep } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { createGzip } from 'node:zlib';
import { POLICY } from './policy.mjs';

/** Media types of what a built page holds; anything else is served as plain bytes. */
const TYPES = /** @type {Record<string, string>} */ ({
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.jpg': 'image/jpeg',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.md': 'text/markdown; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.mp3': 'audio/mpeg',
  '.onnx': 'application/octet-stream',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.wav': 'audio/wav',
  '.webmanifest': 'application/manifest+json',
  '.webp': 'image/webp',
  '.woff2': 'font/woff2',
});

/** Of these a third is left when they are packed; the rest is packed already or gains little. */
const PACKS_WELL = /^text\/|^application\/(json|manifest\+json)|^image\/svg/;

/** Names that carry a hash of their content never change, so they are kept for a year. */
const FOR_EVER = 'public, max-age=31536000, immutable';

/**
 * Answers requests from one folder. A missing file is a 404, never another page; a path that
 * leaves the folder and every name that begins with a dot are refused as missing.
 * @param {string} folder
 * @returns {(request: import('node:http').IncomingMessage, response: import('node:http').ServerResponse) => void}
 */
export function filesOf(folder) {
  const root = resolve(folder);
  return (request, response) => {
    void answer(root, request, response).catch(() => refuse(response, 500, 'Cannot be read'));
  };
}

/**
 * @param {string} root
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
async function answer(root, request, response) {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.setHeader('Allow', 'GET, HEAD');
    return refuse(response, 405, 'Only GET and HEAD');
  }
  const path = pathIn(root, request.url ?? '/');
  if (path === null) return refuse(response, 404, 'Not found');
  const found = await stat(path).catch(() => null);
  if (!found?.isFile()) return refuse(response, 404, 'Not found');

  const etag = `"${found.size.toString(36)}-${Math.round(found.mtimeMs).toString(36)}"`;
  response.setHeader('ETag', etag);
  response.setHeader('X-Content-Type-Options', 'nosniff');
  // Workers have the policy of their own answer alone, and a frame only heeds a header.
  response.setHeader('Content-Security-Policy', `${POLICY}; frame-ancestors 'none'`);
  response.setHeader('Referrer-Policy', 'no-referrer');
  response.setHeader(
    'Cache-Control',
    path.startsWith(`${root}${sep}assets${sep}`) ? FOR_EVER : 'no-cache',
  );
  if (request.headers['if-none-match'] === etag) {
    response.writeHead(304).end();
    return;
  }
  const type = TYPES[extname(path).toLowerCase()] ?? 'application/octet-stream';
  const isPacked =
    PACKS_WELL.test(type) && /\bgzip\b/.test(request.headers['accept-encoding'] ?? '');
  response.setHeader('Vary', 'Accept-Encoding');
  response.writeHead(200, {
    'Content-Type': type,
    ...(isPacked ? { 'Content-Encoding': 'gzip' } : { 'Content-Length': found.size }),
  });
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  const way = isPacked ? [createGzip(), response] : [response];
  // Whoever goes away in the middle is no fault.
  await pipeline([createReadStream(path), ...way]).catch(() => response.destroy());
}

/**
 * The file a request means, or null where it may not be served.
 * @param {string} root
 * @param {string} url path and query of the request
 */
function pathIn(root, url) {
  let path;
  try {
    path = decodeURIComponent(url.split(/[?#]/, 1)[0] ?? '/');
  } catch {
    return null;
  }
  const parts = path.split(/[/\\]/);
  if (path.includes('\0') || parts.some((part) => part.startsWith('.'))) return null;
  const full = resolve(root, `.${sep}${parts.join(sep)}${path.endsWith('/') ? 'index.html' : ''}`);
  return full.startsWith(root + sep) ? full : null;
}

/**
 * @param {import('node:http').ServerResponse} response
 * @param {number} status
 * @param {string} why
 */
function refuse(response, status, why) {
  if (response.headersSent) {
    response.destroy();
    return;
  }
  response.writeHead(status, { 'Content-Type': 'text/plain; charset=utf-8' }).end(`${why}\n`);
}

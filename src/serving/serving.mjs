import { createServer } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import { filesOf } from './files.mjs';
import { FIRST_PORT } from './options.mjs';
import { ServingTrouble } from './trouble.mjs';

const PORTS_TRIED = 20;

/**
 * Serves a folder. Plain HTTP answers only this computer; with a certificate it is HTTPS and
 * answers the local network. A port asked for that is taken is a ServingTrouble; without one the
 * next free port is used.
 * @param {string} folder
 * @param {{ port?: number | null, certificate?: { key: string, cert: string } | null }} [options]
 *   `port` null: the first free one from FIRST_PORT on; 0: the system chooses
 * @returns {Promise<{ port: number, close: () => Promise<void> }>}
 */
export async function serveFolder(folder, { port = null, certificate = null } = {}) {
  const ports =
    port === null ? Array.from({ length: PORTS_TRIED }, (_, k) => FIRST_PORT + k) : [port];
  for (const candidate of ports) {
    const server = certificate
      ? createSecureServer(certificate, filesOf(folder))
      : createServer(filesOf(folder));
    const taken = await listen(server, candidate, certificate ? '0.0.0.0' : '127.0.0.1');
    if (taken !== null) {
      return {
        port: taken,
        close: () =>
          new Promise((done) => {
            server.close(() => done());
            server.closeAllConnections();
          }),
      };
    }
  }
  throw new ServingTrouble(
    port === null
      ? `The ports ${FIRST_PORT} to ${FIRST_PORT + PORTS_TRIED - 1} are all in use. Name a free one: npm start -- --port 8080`
      : `Port ${port} is in use. Name another with --port, or leave --port out to take the next free one.`,
  );
}

/**
 * @param {import('node:http').Server | import('node:https').Server} server
 * @param {number} port
 * @param {string} host
 * @returns {Promise<number | null>} the port, or null where it is in use
 */
function listen(server, port, host) {
  return new Promise((resolve, reject) => {
    server.once('error', (/** @type {NodeJS.ErrnoException} */ error) => {
      if (error.code === 'EADDRINUSE') resolve(null);
      else if (error.code === 'EACCES') {
        reject(
          new ServingTrouble(`Port ${port} may not be used by this account. Name one above 1023.`),
        );
      } else reject(error);
    });
    server.listen(port, host, () => {
      const address = server.address();
      resolve(typeof address === 'object' && address ? address.port : port);
    });
  });
}

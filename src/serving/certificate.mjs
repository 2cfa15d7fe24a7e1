import { X509Certificate } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { networkInterfaces } from 'node:os';
import { dirname } from 'node:path';
import { generate } from 'selfsigned';

const DAY_MILLISECONDS = 86_400_000;
/** Long enough for a season of sessions, well under the longest that phones accept (398 days). */
const VALID_DAYS = 180;

/** The addresses by which other devices of the network can reach this computer (IPv4). */
export function networkAddresses(interfaces = networkInterfaces()) {
  return Object.values(interfaces)
    .flatMap((found) => found ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => address);
}

/**
 * A certificate for `localhost` and these addresses, signed by nobody else. The one in `file` is
 * used again while it names all of them and is valid, so that a phone asks only once.
 * @param {string} file where key and certificate are kept, readable by the owner alone
 * @param {string[]} addresses
 * @returns {Promise<{ key: string, cert: string }>} PEM
 */
export async function certificateFor(file, addresses, now = new Date()) {
  const kept = existsSync(file) ? readKept(file) : null;
  if (kept && covers(kept.cert, addresses, now)) return kept;
  const made = await generate([{ name: 'commonName', value: 'Sayso on this network' }], {
    keyType: 'ec',
    algorithm: 'sha256',
    notBeforeDate: new Date(now.getTime() - DAY_MILLISECONDS),
    notAfterDate: new Date(now.getTime() + VALID_DAYS * DAY_MILLISECONDS),
    extensions: [
      { name: 'basicConstraints', cA: false, critical: true },
      { name: 'keyUsage', digitalSignature: true, critical: true },
      { name: 'extKeyUsage', serverAuth: true },
      {
        name: 'subjectAltName',
        altNames: [
          { type: 2, value: 'localhost' },
          ...['127.0.0.1', ...addresses].map((ip) => ({ type: /** @type {const} */ (7), ip })),
        ],
      },
    ],
  });
  const certificate = { key: made.private, cert: made.cert };
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, JSON.stringify(certificate), { mode: 0o600 });
  return certificate;
}

/**
 * @param {string} file
 * @returns {{ key: string, cert: string } | null}
 */
function readKept(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return null;
  }
}

/**
 * @param {string} pem
 * @param {string[]} addresses
 * @param {Date} now
 */
function covers(pem, addresses, now) {
  const certificate = new X509Certificate(pem);
  return (
    new Date(certificate.validTo).getTime() > now.getTime() + DAY_MILLISECONDS &&
    addresses.every((address) => certificate.checkIP(address) !== undefined)
  );
}

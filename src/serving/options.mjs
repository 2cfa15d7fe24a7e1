import util from 'node:util';
import { UsageTrouble } from './trouble.mjs';

/** The first port tried when none is asked for; the next nineteen are tried after it. */
export const FIRST_PORT = 4180;

export const START_HELP = `npm start                  builds where needed, serves Sayso on this computer, prints the address
npm start -- --phone       serves it over HTTPS to phones and tablets on the same network
npm start -- --port N      uses port N (1 to 65535; 0 lets the system choose)

Without --port the first free port from ${FIRST_PORT} on is taken. Ctrl+C ends it.
`;

/**
 * Reads the words after `npm start --`. Throws a UsageTrouble that names the word and what is
 * allowed.
 * @param {string[]} words
 * @returns {{ help: boolean, phone: boolean, port: number | null }} port is null where none was
 *   asked for
 */
export function readOptions(words) {
  const { help, phone, port } = parse(words);
  if (port === undefined) return { help, phone, port: null };
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65535) {
    throw new UsageTrouble(
      `--port ${port}: a port is a whole number from 0 to 65535, for example --port 8080.`,
    );
  }
  return { help, phone, port: Number(port) };
}

/** @param {string[]} words */
function parse(words) {
  try {
    return util.parseArgs({
      args: words,
      options: {
        help: { type: 'boolean', short: 'h', default: false },
        phone: { type: 'boolean', default: false },
        port: { type: 'string' },
      },
    }).values;
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new UsageTrouble(`${why}\n\n${START_HELP}`);
  }
}

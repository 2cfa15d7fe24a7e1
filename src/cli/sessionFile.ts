import { readFileSync } from 'node:fs';
import { placeOf } from '../domain/keeping/strictJson';
import type { Entry } from '../domain/log';
import { entrySchema } from '../schemas/entry';
import { Refused } from './refused';

/** The format that `rehearse --session` writes, and its version. */
export const SESSION_FORMAT = 'sayso-session-';
export const SESSION_VERSION = 1;

/** A session of hours has some hundred kilobytes. */
const BYTES_MOST = 64 * 1024 * 1024;
const GIVE = 'Give the file that "sayso rehearse ... --session" wrote.';

/**
 * The log in a session file. All else in it is worked out from the log, so that is left unread.
 * @throws Refused with the place and what to do, where it is none, damaged or of a newer version.
 */
export function readSessionFile(path: string): Entry[] {
  const read = parsed(path, textOf(path));
  if (typeof read !== 'object' || read === null || Array.isArray(read)) {
    throw new Refused(`${path}: is no session: it holds no JSON object. ${GIVE}`);
  }
  mustBeSession(path, 'format' in read ? read.format : undefined);
  const entries = 'entries' in read ? read.entries : undefined;
  if (!Array.isArray(entries) || entries.length === 0) {
    throw damaged(path, 'entries', 'there is no log');
  }
  const log = entries.map((entry: unknown, at) => entryOf(path, entry, at));
  mustBeOneLog(path, log);
  return log;
}

function mustBeSession(path: string, format: unknown): void {
  if (typeof format !== 'string' || !format.startsWith(SESSION_FORMAT)) {
    const what =
      typeof format === 'string' ? `its format is "${format.slice(0, 60)}"` : 'no format';
    throw new Refused(`${path}: format: is no session (${what}). ${GIVE}`);
  }
  const version = Number(format.slice(SESSION_FORMAT.length));
  if (version > SESSION_VERSION) {
    throw new Refused(
      `${path}: format: version ${version} is newer than ${SESSION_VERSION}, the newest that is read here. Take the newest Sayso.`,
    );
  }
  if (version !== SESSION_VERSION) {
    throw new Refused(`${path}: format: "${format.slice(0, 60)}" is not known. ${GIVE}`);
  }
}

function entryOf(path: string, entry: unknown, at: number): Entry {
  const read = entrySchema.safeParse(entry);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw damaged(path, placeOf(['entries', at, ...(issue?.path ?? [])]), issue?.message ?? '');
}

/** A log begins once, and each of its entries stands in it once. */
function mustBeOneLog(path: string, log: readonly Entry[]): void {
  const starts = log.flatMap(({ type }, at) => (type === 'started' ? [at] : []));
  if (starts[0] !== 0) throw damaged(path, 'entries[0]', 'must be the entry "started"');
  if (starts[1] !== undefined) {
    throw damaged(path, `entries[${starts[1]}]`, 'a second "started": one session a file');
  }
  const ids = new Set<string>();
  log.forEach(({ id }, at) => {
    if (ids.has(id)) throw damaged(path, `entries[${at}].id`, `"${id}" stands there twice`);
    ids.add(id);
  });
}

const damaged = (path: string, place: string, why: string): Refused =>
  new Refused(`${path}: ${place}: ${why}. The file is damaged: take another copy of it.`);

function parsed(path: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (problem) {
    throw new Refused(`${path}: is no JSON (${(problem as Error).message}). ${GIVE}`);
  }
}

function textOf(path: string): string {
  let bytes: Buffer;
  try {
    bytes = readFileSync(path);
  } catch (problem) {
    const { code } = problem as NodeJS.ErrnoException;
    throw new Refused(
      code === 'ENOENT'
        ? `${path}: there is no such file. ${GIVE}`
        : `${path}: cannot be read (${code ?? String(problem)}). ${GIVE}`,
    );
  }
  if (bytes.length > BYTES_MOST) {
    throw new Refused(`${path}: is larger than 64 MB, which no session is. ${GIVE}`);
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Refused(`${path}: is not in UTF-8. Take the file as Sayso wrote it.`);
  }
}

import { checksumOf } from '../../domain/keeping/checksum';
import { placeOf, strictJson } from '../../domain/keeping/strictJson';
import {
  RefusedRecord,
  type DamagedEntry,
  type KeptSession,
  type WholeRecord,
} from '../../domain/keeping/wholeRecord';
import type { Entry } from '../../domain/log';
import { isInvented, sessionOf } from '../../records/heads';
import { textOf } from './fileText';
import { entrySchema } from '../../schemas/entry';
import { FORMAT, recordFileSchema, VERSION } from '../../schemas/record';
import { sha256 } from './sha256';

const START = new RegExp(
  `^\\{\\s*"format"\\s*:\\s*"${FORMAT}"\\s*,\\s*"version"\\s*:\\s*(\\d+)\\b`,
);
const END = /,\s*"checksum"\s*:\s*"([0-9a-f]{64})"\s*\}\s*$/;
/** As it is written: nothing else is, even where it would mean the same. */
const WRITTEN_END = /,\n"checksum":"[0-9a-f]{64}"\}\s*$/;
/** A file that is no record may have names as long as the file. */
const REASON_LETTERS_MOST = 600;
/** The end of a file within which its checksum stands. */
const END_LETTERS = 200;

/**
 * The record in a file as `writeRecord` wrote it. Throws RefusedRecord, with place and reason,
 * where a letter of it was changed, or where there is anything that no record has.
 */
export async function readRecord(file: Uint8Array<ArrayBuffer>): Promise<WholeRecord> {
  const { bytes, text } = textOf(file);
  const version = START.exec(text.slice(0, END_LETTERS))?.[1];
  if (version === undefined) {
    throw new RefusedRecord('', 'This is no record that Sayso saved. Choose another file.');
  }
  if (Number(version) !== VERSION) {
    throw new RefusedRecord(
      'version',
      `the file is of version ${version}, and this page reads version ${VERSION}. Load the newest page, and try again.`,
    );
  }
  const tail = text.slice(-END_LETTERS);
  const end = END.exec(tail);
  if (end === null) {
    throw new RefusedRecord(
      'checksum',
      'the end of the file is missing: it was cut off. Take a whole copy of it.',
    );
  }
  // The end is plain letters, each of one byte.
  const body = bytes.subarray(0, bytes.length - (tail.length - end.index));
  if (!WRITTEN_END.test(tail) || (await sha256(body)) !== end[1]) {
    throw new RefusedRecord(
      'checksum',
      'it does not fit the rest of the file, so something in it was changed or damaged. Take another copy of it.',
    );
  }
  const read = recordFileSchema.safeParse(strictJson(text));
  if (!read.success) throw refusal(read.error.issues);
  const { people, sessions, notes, erased } = read.data;
  mustDiffer(
    'people',
    people.map(({ id }) => id),
    'id',
  );
  mustDiffer(
    'sessions',
    sessions.map(({ session }) => session),
    'session',
  );
  mustDiffer(
    'notes',
    notes.map(({ id }) => id),
    'id',
  );
  mustDiffer(
    'erased',
    erased.map(({ id }) => id),
    'id',
  );
  sessions.forEach(mustBelong);
  return { people, notes, erased, sessions: sessions.map(mended) };
}

/** Where a file is not as its shape wants it first, and why. */
export function refusal(
  issues: readonly { path: PropertyKey[]; message: string }[],
): RefusedRecord {
  const [first] = issues;
  const more = issues.length > 1 ? ` (${issues.length - 1} more places are wrong.)` : '';
  return new RefusedRecord(
    placeOf(first?.path ?? []),
    `${(first?.message ?? '').slice(0, REASON_LETTERS_MOST).replace(/\.$/, '')}.${more}`,
  );
}

function mustDiffer(list: string, ids: readonly string[], field: string): void {
  const seen = new Set<string>();
  ids.forEach((id, at) => {
    if (seen.has(id))
      throw new RefusedRecord(`${list}[${at}].${field}`, `"${id}" stands there twice.`);
    seen.add(id);
  });
}

/** Entries of one session, begun by its start, each once. */
function mustBelong({ session, entries }: KeptSession, at: number): void {
  const place = `sessions[${at}]`;
  if (isInvented(session)) {
    throw new RefusedRecord(
      `${place}.session`,
      'sessions of the invented club are not brought in.',
    );
  }
  mustDiffer(
    `${place}.entries`,
    entries.map(({ id }) => id),
    'id',
  );
  entries.forEach(({ id, type }, index) => {
    const where = `${place}.entries[${index}]`;
    if (sessionOf(id) !== session) {
      throw new RefusedRecord(`${where}.id`, `"${id}" is of another session than "${session}".`);
    }
    const isStart = index === 0;
    if (isStart !== (type === 'started') && type !== 'damaged') {
      const allowed = isStart ? 'a session begins with started' : 'a session starts once';
      throw new RefusedRecord(`${where}.type`, `it is ${type}, but ${allowed}.`);
    }
  });
}

/** What an older version did not understand may be understood here. */
const mended = ({ session, entries }: KeptSession): KeptSession => ({
  session,
  entries: entries.map((item) => (item.type === 'damaged' ? (whole(item) ?? item) : item)),
});

function whole({ id, checksum, was }: DamagedEntry): Entry | null {
  try {
    const read = entrySchema.safeParse(strictJson(was));
    return read.success && read.data.id === id && checksumOf(read.data) === checksum
      ? read.data
      : null;
  } catch {
    return null;
  }
}

import { RefusedHandover, type Travelling } from '../../domain/handover/refused';
import type { Handover } from '../../domain/handover/handover';
import { mustBeHomework, type HomeworkReport } from '../../domain/handover/returning';
import { canonicalJson } from '../../domain/keeping/canonical';
import { crc32 } from '../../domain/keeping/checksum';
import { strictJson } from '../../domain/keeping/strictJson';
import { RefusedRecord } from '../../domain/keeping/wholeRecord';
import { unseenIn } from '../../domain/reporting/sheet/plain';
import { textOf } from '../record/fileText';
import { refusal } from '../record/reading';
import { NotPacked, unpack } from './packing';
import { FORMATS, homeworkFileSchema, reportFileSchema, VERSION } from './schema';

/** Of a file, of what was pasted, and of what that unpacks to: years of homework. */
export const BYTES_MOST = 4 * 1024 * 1024;
/** Longer texts stand in no entry of a session. */
const LETTERS_MOST = 2000;

/** What was handed over, by what it is. */
export type HandedOver =
  { what: 'homework'; handover: Handover } | { what: 'report'; report: HomeworkReport };

/** In a link, whatever stands around it in a message; some programs write = as %3D. */
const IN_LINK = /#(homework|report)(?:=|%3D)([\w-]*)/i;

/** What a link is about, by its words alone; null where it holds nothing of this. */
export const linkIsOf = (link: string): Travelling | null =>
  (IN_LINK.exec(link.slice(0, BYTES_MOST))?.[1]?.toLowerCase() as Travelling | undefined) ?? null;

/**
 * What a text holds: a link, a message with one in it, or what stood in a file. Rejects with
 * RefusedHandover. Whether homework fits the cues of this page is not looked at. `now`:
 * milliseconds since 1970.
 */
export async function readHandedOver(text: string, now: number): Promise<HandedOver> {
  if (text.length > BYTES_MOST) throw tooLong(null, text.length);
  const [, named, letters] = IN_LINK.exec(text) ?? [];
  if (letters === undefined) return fromJson(text, null, now);
  const what = named?.toLowerCase() as Travelling;
  try {
    return await fromJson(await unpack(letters, BYTES_MOST), what, now);
  } catch (error) {
    if (!(error instanceof NotPacked)) throw error;
    throw error.isTooLong ? tooLong(what, BYTES_MOST + 1) : cutOff(what);
  }
}

/** The same of a file. No more of it is read than may be. */
export async function readHandedOverFile(file: Blob, now: number): Promise<HandedOver> {
  if (file.size > BYTES_MOST) throw tooLong(null, file.size);
  let text: string;
  try {
    ({ text } = textOf(new Uint8Array(await file.arrayBuffer())));
  } catch (error) {
    throw error instanceof RefusedRecord ? new RefusedHandover(null, '', error.reason) : error;
  }
  return readHandedOver(text, now);
}

function fromJson(text: string, named: Travelling | null, now: number): HandedOver {
  const value = parsed(text, named);
  const what = value.format === FORMATS.homework ? 'homework' : 'report';
  if (value.format !== FORMATS[what]) {
    throw new RefusedHandover(named, '', 'This is neither homework nor what came of it.');
  }
  if (value.version !== VERSION) {
    const reason = `it is of version ${JSON.stringify(value.version)?.slice(0, 20)}, and this page reads version ${VERSION}.`;
    throw new RefusedHandover(what, 'version', reason, 'Load the newest page, and open it again.');
  }
  const { checksum, ...rest } = value;
  if (checksum !== crc32(canonicalJson(rest))) throw cutOff(what);
  mustBeSeen(rest, what, '');
  const shape = what === 'homework' ? homeworkFileSchema : reportFileSchema;
  const read = shape.safeParse(value);
  if (!read.success) {
    const { place, reason } = refusal(read.error.issues);
    throw new RefusedHandover(what, place, reason);
  }
  if ('sessions' in read.data) {
    const { handover, sessions } = read.data;
    mustBeHomework({ handover, sessions }, now);
    return { what: 'report', report: { handover, sessions } };
  }
  return { what: 'homework', handover: read.data.handover };
}

function parsed(text: string, what: Travelling | null): Record<string, unknown> {
  let value: unknown;
  try {
    value = strictJson(text.trim());
  } catch (error) {
    if (!(error instanceof RefusedRecord)) throw error;
    if (error.place === '') throw what === null ? neither() : cutOff(what);
    throw new RefusedHandover(what, error.place, error.reason);
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw neither();
  return value as Record<string, unknown>;
}

/** No text in it may hide letters, turn what follows or be longer than any that Sayso writes. */
function mustBeSeen(value: unknown, what: Travelling, place: string): void {
  if (typeof value === 'string') {
    const unseen = unseenIn(value);
    if (unseen !== null) {
      const code = (unseen.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
      throw new RefusedHandover(what, place, `it has a character that cannot be seen (U+${code}).`);
    }
    if (value.length > LETTERS_MOST) {
      throw new RefusedHandover(what, place, `it has more than ${LETTERS_MOST} letters.`);
    }
  } else if (Array.isArray(value)) {
    value.forEach((each, at) => mustBeSeen(each, what, `${place}[${at}]`));
  } else if (typeof value === 'object' && value !== null) {
    for (const [name, each] of Object.entries(value)) {
      mustBeSeen(each, what, place === '' ? name.slice(0, 60) : `${place}.${name.slice(0, 60)}`);
    }
  }
}

const neither = () =>
  new RefusedHandover(null, '', 'This is neither homework nor what came of it, or it was cut off.');

const cutOff = (what: Travelling) =>
  new RefusedHandover(
    what,
    '',
    `This ${what === 'homework' ? 'homework' : 'report'} was cut off or changed on its way.`,
  );

const tooLong = (what: Travelling | null, bytes: number) =>
  new RefusedHandover(
    what,
    '',
    `This has ${(bytes / 1024 / 1024).toFixed(1)} MB or more; at most ${BYTES_MOST / 1024 / 1024} MB are read.`,
  );

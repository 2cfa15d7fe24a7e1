import type { Handover } from '../../domain/handover/handover';
import type { Travelling } from '../../domain/handover/refused';
import type { HomeworkReport } from '../../domain/handover/returning';
import { canonicalJson } from '../../domain/keeping/canonical';
import { crc32 } from '../../domain/keeping/checksum';
import { pack } from './packing';
import { FORMATS, VERSION } from './schema';

/**
 * A link has at most so many letters: what carries messages cuts longer ones off, or makes no link
 * of them (common practice, no source).
 */
export const LINK_LETTERS_MOST = 8000;

/** With what the checksum is of all the rest, as canonical JSON. */
const sealed = (rest: Record<string, unknown>): string =>
  `${canonicalJson({ ...rest, checksum: crc32(canonicalJson(rest)) })}\n`;

/** Homework as the text of a file. */
export const homeworkText = (handover: Handover): string =>
  sealed({ format: FORMATS.homework, version: VERSION, handover });

/** What came of homework as the text of a file; `madeAt`: ISO 8601 with offset. */
export const reportText = (report: HomeworkReport, madeAt: string): string =>
  sealed({ format: FORMATS.report, version: VERSION, madeAt, ...report });

/**
 * The link that holds a text of these: to the page at `address`, behind #, which browsers send to
 * nobody. Null where it would be too long for a link.
 */
export async function linkOf(
  address: string,
  what: Travelling,
  text: string,
): Promise<string | null> {
  const link = `${address}#${what}=${await pack(text.trimEnd())}`;
  return link.length > LINK_LETTERS_MOST ? null : link;
}

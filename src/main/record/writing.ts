import { canonicalJson } from '../../domain/keeping/canonical';
import { checksumOf } from '../../domain/keeping/checksum';
import type { KeptSession, WholeRecord } from '../../domain/keeping/wholeRecord';
import { entrySchema } from '../../schemas/entry';
import { FORMAT, VERSION } from '../../schemas/record';
import { sha256 } from './sha256';

/** A record as the text of a file. */
export interface Written {
  text: string;
  /** Entries that are damaged, or that this version does not understand: kept in it as text. */
  setAside: number;
}

/**
 * A record as one JSON file: an entry a line, equal records as equal texts. `madeAt`: ISO 8601 with
 * offset. What is out of shape is kept in it, in the place of the entry, and never lost.
 */
export async function writeRecord(record: WholeRecord, madeAt: string): Promise<Written> {
  let setAside = 0;
  const written = (item: KeptSession['entries'][number]) => {
    const isWhole = item.type !== 'damaged' && entrySchema.safeParse(item).success;
    if (isWhole) return canonicalJson(item);
    setAside += 1;
    if (item.type === 'damaged') return canonicalJson(item);
    const { id } = item;
    return canonicalJson({
      ...{ type: 'damaged', id, checksum: checksumOf(item), was: canonicalJson(item) },
    });
  };
  const sessions = record.sessions.map(
    ({ session, entries }) =>
      `{"session":${JSON.stringify(session)},"entries":${list(entries.map(written))}}`,
  );
  const body = [
    `{"format":"${FORMAT}","version":${VERSION},"madeAt":"${madeAt}"`,
    `"people":${list(record.people.map(canonicalJson))}`,
    `"sessions":${list(sessions)}`,
    `"notes":${list(record.notes.map(canonicalJson))}`,
    `"erased":${list(record.erased.map(canonicalJson))}`,
  ].join(',\n');
  const checksum = await sha256(new TextEncoder().encode(body));
  return { text: `${body},\n"checksum":"${checksum}"}`, setAside };
}

const list = (items: string[]): string =>
  items.length === 0 ? '[]' : `[\n${items.join(',\n')}\n]`;

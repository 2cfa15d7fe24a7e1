import { canonicalJson } from '../domain/keeping/canonical';
import { earlierTombstone, laterPerson, mergedEntries } from '../domain/keeping/merging';
import {
  RefusedRecord,
  type BroughtIn,
  type KeptSession,
  type WholeRecord,
} from '../domain/keeping/wholeRecord';
import { damagedEntry, intact, rowOf, rowOfDamaged, type Row } from './checked';
import type { OpenDatabase } from './database';

type Tables = Pick<OpenDatabase, 'entries' | 'people' | 'notes' | 'erased' | 'sealings'>;

/**
 * Adds what the record has and these tables lack; see `Keeping.bringIn`. Runs inside one
 * transaction over all of them, so that what it throws leaves them as they were. `isTrial`: only
 * counts.
 */
export async function bringIn(
  tables: Tables,
  record: WholeRecord,
  isTrial: boolean,
): Promise<BroughtIn> {
  const gone = await erase(tables, record, isTrial);
  const people = await addPeople(tables, record, gone.ids, isTrial);
  const notes = await addNotes(tables, record, gone.ids, isTrial);
  const counts = { sessionsAdded: 0, entriesAdded: 0, entriesMended: 0 };
  for (const [at, session] of record.sessions.entries()) {
    const added = await addSession(tables, session, `sessions[${String(at)}]`, isTrial);
    counts.sessionsAdded += added.isNew ? 1 : 0;
    counts.entriesAdded += added.entries;
    counts.entriesMended += added.mended;
  }
  const { peopleErased, stayErased } = gone;
  return { ...people, ...notes, ...counts, peopleErased, stayErased };
}

/** Tombstones of both; who lies under one of the other device goes here too, with their notes. */
async function erase({ people, notes, erased }: Tables, record: WholeRecord, isTrial: boolean) {
  const here = new Map((await erased.toArray()).map((one) => [one.id, one]));
  const all = new Map(here);
  for (const one of record.erased) {
    const own = here.get(one.id);
    all.set(one.id, own === undefined ? one : earlierTombstone(own, one));
  }
  const ids = [...all.keys()];
  const peopleErased = await people.where('id').anyOf(ids).count();
  const stayErased = record.people.filter(({ id }) => here.has(id)).length;
  if (!isTrial) {
    await erased.bulkPut([...all.values()]);
    await people.bulkDelete(ids);
    await notes.bulkDelete(ids);
    await notes.where('person').anyOf(ids).delete();
  }
  return { ids: new Set(ids), peopleErased, stayErased };
}

async function addPeople(
  { people, sealings }: Tables,
  record: WholeRecord,
  erased: Set<string>,
  isTrial: boolean,
) {
  const those = record.people.filter(({ id }) => !erased.has(id));
  const here = await sealings.people.opened(await people.bulkGet(those.map(({ id }) => id)));
  const changed = those.flatMap((one, at) => {
    const own = here[at];
    const later = own === undefined ? one : laterPerson(own, one);
    return later === own ? [] : [{ later, own }];
  });
  if (!isTrial)
    await people.bulkPut(await sealings.people.sealed(changed.map(({ later }) => later)));
  const peopleAdded = changed.filter(({ own }) => own === undefined).length;
  const isOther = ({ later, own }: (typeof changed)[number]) =>
    own !== undefined && canonicalJson(own) !== canonicalJson(later);
  return { peopleAdded, peopleChanged: changed.filter(isOther).length };
}

async function addNotes(
  { notes, sealings }: Tables,
  record: WholeRecord,
  erased: Set<string>,
  isTrial: boolean,
) {
  const here = await sealings.notes.opened(await notes.bulkGet(record.notes.map(({ id }) => id)));
  const added = record.notes.filter((note, at) => {
    if (erased.has(note.id) || (note.person !== null && erased.has(note.person))) return false;
    const own = here[at];
    if (own !== undefined && canonicalJson(own) !== canonicalJson(note)) {
      throw new RefusedRecord(`notes[${String(at)}]`, otherContent('note', note.id));
    }
    return own === undefined;
  });
  // What is damaged here lies there still.
  if (!isTrial) await notes.bulkPut(await sealings.notes.sealed(added));
  return { notesAdded: added.length };
}

async function addSession(
  { entries: table, sealings }: Tables,
  { session, entries: there }: KeptSession,
  place: string,
  isTrial: boolean,
) {
  const rows = await sealings.entries.opened(
    await table.where('session').equals(session).sortBy('order'),
  );
  const here = rows.map((row) => intact(row) ?? damagedEntry(row));
  const merged = mergedEntries(here, there, (index) => {
    const id = there[index]?.id ?? '';
    throw new RefusedRecord(`${place}.entries[${String(index)}]`, otherContent('entry', id));
  });
  const known = new Map(here.map((item, at) => [item.id, { item, row: rows[at] }]));
  const isMended = (item: (typeof merged)[number]) =>
    item.type !== 'damaged' && known.get(item.id)?.item.type === 'damaged';
  const mended = merged.filter(isMended).length;
  const isChanged = merged.length > here.length || mended > 0;
  if (!isTrial && isChanged) {
    // What stands from the first difference on gets its place anew; the rows before stay.
    const from = merged.findIndex((item, at) => item !== here[at]);
    await table.bulkDelete(rows.slice(from).map(({ order }) => order));
    const written = merged.slice(from).map((item) => {
      const { item: own, row } = known.get(item.id) ?? {};
      if (row !== undefined && own === item) return withoutOrder(row);
      return item.type === 'damaged' ? rowOfDamaged(item) : rowOf(item);
    });
    await table.bulkAdd(await sealings.entries.sealed(written));
  }
  return { isNew: rows.length === 0, entries: merged.length - here.length, mended };
}

function withoutOrder(row: Row): Omit<Row, 'order'> {
  const rest: Omit<Row, 'order'> & { order?: number } = { ...row };
  delete rest.order;
  return rest;
}

const otherContent = (what: string, id: string): string =>
  `this device has the ${what} "${id}" with other content, and neither is ever changed. The file may come from a device that was copied from this one.`;

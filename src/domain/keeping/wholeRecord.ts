/** All that a device keeps, as it is taken out into one file and brought in from one. */
import type { Entry } from '../log';
import type { Person } from '../people/person';

/** In the place of an entry that is not as it was written. Nothing is graded from it. */
export interface DamagedEntry {
  type: 'damaged';
  /** Of the entry that stood there. */
  id: string;
  /** That was kept beside it: an entry that has it again is the true one; empty where it is not known. */
  checksum: string;
  /** What was left of it, as text. */
  was: string;
}

export interface KeptSession {
  session: string;
  /** In their order. */
  entries: (Entry | DamagedEntry)[];
}

/** A person with when they were last changed, in milliseconds since 1970; 0 where not known. */
export interface KeptPerson extends Person {
  changedAt: number;
}

/** A note as `Notes` of the ports keep it. */
export interface KeptNote {
  id: string;
  session: string;
  person: string | null;
  text: string;
  writtenAt: string;
}

/** Stays where somebody was erased, or a note removed, so that no older file brings them back. */
export interface Tombstone {
  /** Of who or what was erased; random, so it says nothing of them. */
  id: string;
  kind: 'person' | 'note';
  /** ISO 8601. */
  erasedAt: string;
}

/** Squads are the names that people share. The invented club is not part of it. */
export interface WholeRecord {
  people: KeptPerson[];
  sessions: KeptSession[];
  notes: KeptNote[];
  erased: Tombstone[];
}

/** What bringing in a record has changed, or would change. */
export interface BroughtIn {
  peopleAdded: number;
  peopleChanged: number;
  sessionsAdded: number;
  /** Of new and of known sessions. */
  entriesAdded: number;
  notesAdded: number;
  /** Damaged entries here that are whole again. */
  entriesMended: number;
  /** Erased here; the file had them still, and they stay erased. */
  stayErased: number;
  /** Erased on the other device, and so here too. */
  peopleErased: number;
}

/** A file is not taken: where in it, and why. Nothing was changed. */
export class RefusedRecord extends Error {
  /** As in `sessions[3].entries[17].atSeconds`; empty where it is the whole. */
  readonly place: string;
  /** Why, without the place. */
  readonly reason: string;

  constructor(place: string, reason: string) {
    super(
      place === ''
        ? `${reason} Nothing was brought in.`
        : `At ${place}: ${reason} Nothing was brought in.`,
    );
    this.name = 'RefusedRecord';
    this.place = place;
    this.reason = reason;
  }
}

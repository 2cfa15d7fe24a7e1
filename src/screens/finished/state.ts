import type { Correction } from '../../domain/deciding/correction';
import type { SaidFinding } from '../../domain/deciding/corrected';
import type { AngleTool } from '../../domain/findings';
import type { SessionSettings } from '../../domain/log';
import type { SinceLastVisit } from '../../domain/reporting/lastVisit';
import type { Moment } from '../../domain/reporting/moments';
import type { Unseen } from '../../domain/reporting/unseen';
import type { Note, SessionHead } from '../../ports';
import type { Told } from '../view';

/** What stands in the record of a visit, to be corrected and noted upon. */
export interface VisitRecord {
  /** Every finding that counts, a side each, in the order they were said. */
  said: SaidFinding[];
  settings: SessionSettings;
  /** What a new angle was read with. */
  angleTool: AngleTool;
  /** Held by a correction alone: to be tested again. */
  unseen: Unseen[];
  /** It never ended, and has to be closed before anything is corrected. */
  isCutOff: boolean;
  /** Newest last; null where they cannot be read. */
  notes: Note[] | null;
}

/** A session as it is read afterwards. */
export interface Visit {
  head: SessionHead;
  /** Null where it never ended and nothing can be told of it. */
  end: Told<'end'>;
  moments: Moment[];
  /** Beside the visit before, where there is one of the same person. */
  since: { before: SessionHead; told: SinceLastVisit } | null;
  /** Left out of a rehearsal, where nobody was tested: nothing of it is corrected or noted. */
  record?: VisitRecord;
}

/**
 * `trouble`: why it cannot be read, and what to do; `upTo`: what stands before what is damaged, of
 * which nothing is graded; left out where nothing does.
 */
export type VisitState =
  | { state: 'loading' }
  | { state: 'trouble'; trouble: string; upTo?: Moment[] }
  | ({ state: 'here' } & Visit);

/** Forms of the readiness sheet: to print, to send, for a spreadsheet, for a clinic (FHIR R4). */
export const SHEET_FORMS = ['html', 'text', 'csv', 'fhir'] as const;

/** A readiness sheet that is to be saved as a file. */
export interface SheetWanted {
  as: (typeof SHEET_FORMS)[number];
  nameAs: 'initials' | 'whole' | 'none';
  hasNotes: boolean;
}

/**
 * What a person may do with the record of a session afterwards. What changes something is done to
 * the visit that is shown, and gives null once it is kept, else what to do.
 */
export interface VisitHands {
  /** A past session, to read. */
  open(session: string): void;
  /** Puts a finding right; what was said stays in the record. */
  correct(correction: Correction): Promise<string | null>;
  /** Ends a session that was cut off, so that it is not gone on with. */
  close(): Promise<string | null>;
  addNote(text: string): Promise<string | null>;
  removeNote(id: string): Promise<string | null>;
  /** The readiness sheet of the visit that is shown, as a file. */
  saveSheet(wanted: SheetWanted): Promise<string | null>;
  /** What was noted last of a person, of any visit; null where nothing was, or it cannot be read. */
  lastNote(person: string): Promise<Note | null>;
}

import type { RecordProblem } from '../ports';

/** What the user can do about each way in which a record fails. */
const SAY: Record<RecordProblem['reason'], string> = {
  full: 'This device is out of space for the record. It is kept for now: free some space and leave this page open.',
  refused:
    'This browser does not let the page keep a record, as in a private window. It is kept only while this page is open: open it in an ordinary window.',
  damaged:
    'The record on this device could not be read. What happens now is kept while this page is open: close other windows of this page, then load it again.',
  differs:
    'Another entry of this session is already stored in the place of this one, as when the session went on in another window too. Nothing was changed in the record. What happens now is kept while this page is open: save the whole record, then begin a new session.',
  unknown:
    'The record could not be written. It is kept for now and tried again: leave this page open.',
};

const REASONS: Record<string, RecordProblem['reason']> = {
  QuotaExceededError: 'full',
  QuotaExceeded: 'full',
  InvalidStateError: 'refused',
  SecurityError: 'refused',
  MissingAPIError: 'refused',
  NotAllowedError: 'refused',
  VersionError: 'damaged',
  UnknownError: 'damaged',
  DataError: 'damaged',
  NotFoundError: 'damaged',
};

/** A problem with its designed answer. */
export const problem = (reason: RecordProblem['reason']): RecordProblem => ({
  reason,
  say: SAY[reason],
});

/** A window of an older version holds the database, so that its new shape cannot be made. */
export const BLOCKED: RecordProblem = {
  reason: 'damaged',
  say: 'Another window of this page still holds the record in its older form. What happens now is kept while this page is open: close the other windows, and it is written.',
};

/** It lies under a passphrase, which was not typed in this page. */
export const LOCKED: RecordProblem = {
  reason: 'refused',
  say: 'The record is locked. Load the page again, and open it with its passphrase.',
};

/** Another window erased them meanwhile; what was typed here would bring them back. */
export const ERASED: RecordProblem = {
  reason: 'refused',
  say: 'They were erased on this device, so nothing about them is kept. Load the page again.',
};

/**
 * The problem behind an error of the browser's database, by its name (Indexed Database API and
 * Dexie name them alike); wrapped errors are looked into.
 */
export const problemOf = (error: unknown): RecordProblem => {
  for (let inner = error, depth = 0; isNamed(inner) && depth < 5; depth += 1) {
    const reason = REASONS[inner.name];
    if (reason !== undefined) return problem(reason);
    inner = inner.inner;
  }
  return problem('unknown');
};

const isNamed = (error: unknown): error is { name: string; inner?: unknown } =>
  typeof error === 'object' && error !== null && 'name' in error && typeof error.name === 'string';

/** Thrown where a record cannot be read or written; `problem.say` tells the user what to do. */
export class RecordError extends Error {
  readonly problem: RecordProblem;

  /** `known`: the problem, where it was found before. */
  constructor(error: unknown, known: RecordProblem | null = null) {
    const found = known ?? (error instanceof RecordError ? error.problem : problemOf(error));
    super(found.say, { cause: error });
    this.name = 'RecordError';
    this.problem = found;
  }
}

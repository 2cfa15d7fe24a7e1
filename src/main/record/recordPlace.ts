import { RefusedRecord, type WholeRecord } from '../../domain/keeping/wholeRecord';
import { withHeld } from '../../domain/keeping/merging';
import type { Entry } from '../../domain/log';
import type { Clock } from '../../ports';
import type { Keeping } from '../../records/dexieKeeping';
import { isInvented, sessionOf } from '../../records/heads';
import { passphraseProblem, WrongPassphrase } from '../../records/passphrase';
import { RecordError } from '../../records/problems';
import { momentAt } from '../../session/startedAt';
import { fits, mustFit } from './fileText';
import { download } from '../download';
import type { RecordHands } from '../../screens/record/state';
import type { SavedShelf } from './savedShelf';

/** What reads and writes a record needs its shape, which comes when it is asked for. */
const coming = () => Promise.all([import('./reading'), import('./writing'), import('./locking')]);

/** The whole record of this device: out into a file, and in from one. */
export type RecordPlace = Pick<RecordHands, 'save' | 'look' | 'bringIn'>;

const NOTHING: WholeRecord = { people: [], sessions: [], notes: [], erased: [] };

const NOT_THERE = 'A part of the page did not arrive. Connect to the network and try it again.';
const NOT_SAVED = 'The file could not be made. Nothing has changed; try it again.';
const NOT_OPENED = 'The file could not be opened. Close it in other programs, and choose it again.';
const NOTHING_CHOSEN = 'There is no file yet. Choose one first.';
const TOO_LARGE =
  'The record is larger than a file may be, so none was made. Nothing was deleted; tell those who make Sayso.';
/** Unlike an entry of a session that runs, nothing of a file is held until it is tried again. */
const NOT_KEPT: Record<RecordError['problem']['reason'], string> = {
  full: 'This device has no room for it, so nothing was brought in. Free some space, and try it again.',
  refused:
    'This browser does not let the page keep a record, as in a private window, so nothing was brought in. Open it in an ordinary window.',
  damaged:
    'The record on this device could not be written, so nothing was brought in. Close other windows of this page, load it again, and try once more.',
  differs:
    'Something else is already kept in the place of what the file has, so nothing was brought in. Load the page again, and try once more.',
  unknown: 'Nothing was brought in. Load the page again, and try once more.',
};

/** `handOver` hands a text over as a file of that name. */
export function createRecordPlace({
  keeping,
  held,
  clock,
  shelf,
  handOver = download,
}: {
  keeping: Pick<Keeping, 'whole' | 'bringIn'>;
  /** What the page holds of the log, stored or not. */
  held: (() => Entry[]) | undefined;
  clock: Clock;
  shelf: SavedShelf;
  handOver?: (name: string, text: string, type: string) => void;
}): RecordPlace {
  let chosen: WholeRecord | null = null;
  /** How often a file was looked at: of two the later counts, whichever is read first. */
  let looks = 0;
  const now = () => momentAt(clock.now(), -new Date(clock.now()).getTimezoneOffset());

  /** Where the device's own cannot be read, what the page holds is worth a file all the more. */
  async function whole(): Promise<WholeRecord> {
    const entries = (held?.() ?? []).filter(({ id }) => !isInvented(sessionOf(id)));
    const kept = await keeping.whole().catch((error: unknown) => {
      if (entries.length === 0) throw error;
      return NOTHING;
    });
    return withHeld(kept, entries, sessionOf);
  }

  return {
    async save(passphrase) {
      const parts = await coming().catch(() => null);
      if (parts === null) return { say: NOT_THERE };
      const [{ readRecord }, { writeRecord }, { lock }] = parts;
      const problem = passphrase === null ? null : passphraseProblem(passphrase);
      if (problem !== null) return { say: problem };
      try {
        const madeAt = now();
        const { text, setAside } = await writeRecord(await whole(), madeAt);
        const written = passphrase === null ? text : await lock(text, passphrase);
        if (!fits(written)) return { say: TOO_LARGE };
        // A file that could not be brought in again is worth nothing: it is read before it is given.
        await readRecord(new TextEncoder().encode(text));
        const kind = passphrase === null ? 'record' : 'record-locked';
        const file = `sayso-${kind}-${madeAt.slice(0, 10)}.json`;
        handOver(file, written, 'application/json');
        shelf.save(madeAt);
        return { file, damaged: setAside };
      } catch (error) {
        return { say: error instanceof RecordError ? error.message : notSaved(error) };
      }
    },
    async look(file, passphrase) {
      looks += 1;
      const mine = looks;
      chosen = null;
      const parts = await coming().catch(() => null);
      if (parts === null) return { say: NOT_THERE };
      const [{ readRecord }, , { isLocked, unlock }] = parts;
      try {
        mustFit(file.size);
        const bytes = new Uint8Array(await file.arrayBuffer());
        const isSealed = isLocked(bytes);
        if (isSealed && passphrase === null) return { isLocked: true };
        const opened = isSealed && passphrase !== null ? await unlock(bytes, passphrase) : bytes;
        const record = await readRecord(opened);
        const would = await keeping.bringIn(record, true);
        if (mine === looks) chosen = record;
        return { would };
      } catch (error) {
        const tells = error instanceof RefusedRecord || error instanceof WrongPassphrase;
        return { say: tells ? error.message : notBroughtIn(error, NOT_OPENED) };
      }
    },
    async bringIn() {
      if (chosen === null) return { say: NOTHING_CHOSEN };
      try {
        const did = await keeping.bringIn(chosen);
        chosen = null;
        return { did };
      } catch (error) {
        return {
          say:
            error instanceof RefusedRecord ? error.message : notBroughtIn(error, NOT_KEPT.unknown),
        };
      }
    },
  };
}

const notSaved = (error: unknown): string =>
  error instanceof RefusedRecord
    ? `The record could not be saved, because of something in it${error.place === '' ? '' : ` at ${error.place}`}. Nothing was deleted; tell those who make Sayso.`
    : NOT_SAVED;

const notBroughtIn = (error: unknown, otherwise: string): string =>
  error instanceof RecordError ? NOT_KEPT[error.problem.reason] : otherwise;

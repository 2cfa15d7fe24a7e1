import type { SeatStore } from '../../screens/seat';
import type { Became, RecordHands, RecordState } from '../../screens/record/state';
import { isInvented } from '../../records/heads';
import { loadedOnce } from '../../records/loadedOnce';
import type { Parts } from '../parts';
import { askToLast, LASTING_SAYS } from './lasting';
import { createSavedShelf, isSavingDue } from './savedShelf';

/** The place at the seat of the record as a whole. */
export interface RecordSeat extends RecordHands {
  /** Looks whether the record is to be saved. */
  lookDue(): Promise<void>;
}

export const RECORD: RecordState = { isSavingDue: false, lasting: null, damage: null };

const NOT_THERE = {
  say: 'A part of the page did not arrive. Connect to the network and try it again.',
};

/** `changed` is called once something was brought in. */
export function createRecordHands({
  parts,
  store,
  changed,
  storage,
  manager,
}: {
  parts: Pick<Parts, 'clock' | 'keeping' | 'records'>;
  store: SeatStore;
  changed: () => void;
  storage: () => Storage;
  /** `navigator.storage`, undefined where the page is not secure. */
  manager: Parameters<typeof askToLast>[0];
}): RecordSeat {
  const { clock, keeping, records } = parts;
  const shelf = createSavedShelf(storage);
  const place = loadedOnce(async () =>
    (await import('./recordPlace')).createRecordPlace({
      keeping,
      held: records.held,
      clock,
      shelf,
    }),
  );
  const patch = (change: Partial<RecordState>) =>
    store.patch({ record: { ...store.state().record, ...change } });
  const orSay = async <T>(became: () => Promise<Became<T>>): Promise<Became<T>> => {
    try {
      await place();
    } catch {
      return NOT_THERE;
    }
    return became();
  };

  async function lookDue() {
    const heads = await records.sessions().catch(() => []);
    // The invented club is in no file.
    const startedAts = heads.flatMap(({ session, startedAt }) =>
      isInvented(session) ? [] : [startedAt],
    );
    patch({ isSavingDue: isSavingDue(shelf.load(), startedAts, clock.now()) });
  }

  async function lookAtDamage() {
    const [damage, heads] = await Promise.all([
      keeping.damage().catch(() => []),
      records.sessions().catch(() => null),
    ]);
    /** Whose beginning is damaged, so that no list can have it. */
    const isUnlisted = (session: string) =>
      heads !== null && !heads.some((head) => head.session === session);
    patch({
      damage: damage.map(({ session, id, isNewer }) =>
        isNewer
          ? `Session ${session}, entry ${id}: written by a newer version of this page.`
          : isUnlisted(session)
            ? `Session ${session}, entry ${id}. The beginning of this session cannot be read: whose it was and when is not known, so it is in no list; the rest of it is kept, and comes with a saved record.`
            : `Session ${session}, entry ${id}.`,
      ),
    });
  }

  return {
    lookDue,
    show() {
      store.patch({ where: 'record' });
      void askToLast(manager, storage).then((lasting) => patch({ lasting: LASTING_SAYS[lasting] }));
      void lookAtDamage();
    },
    save: (passphrase) =>
      orSay(async () => {
        const became = await (await place()).save(passphrase);
        await lookDue();
        return became;
      }),
    look: (file, passphrase) => orSay(async () => (await place()).look(file, passphrase)),
    bringIn: () =>
      orSay(async () => {
        const became = await (await place()).bringIn();
        if ('did' in became) changed();
        await lookAtDamage();
        return became;
      }),
    leave: () => store.patch({ where: 'people' }),
  };
}

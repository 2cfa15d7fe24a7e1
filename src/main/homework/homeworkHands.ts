import type { EntryOf } from '../../domain/log';
import { loadedOnce } from '../../records/loadedOnce';
import type { HomeworkHands, HomeworkState } from '../../screens/homework/state';
import { isHandedOver, type Address } from './address';
import type { HomeworkParts, HomeworkPlace } from './homeworkPlace';
import { KEPT_KEY } from './homeworkKey';
import type { ToRun } from '../running';

/** The place at the seat of homework, on a coach's device and on an athlete's. */
export interface HomeworkSeat extends HomeworkHands {
  /** Reads anew what is kept here, and shows it on the first screen. */
  look(): Promise<void>;
  /** Of homework that was cut off and is taken up: where it ends. */
  goesOn(began: EntryOf<'started'>): Pick<ToRun, 'over'>;
}

export const HOMEWORK: HomeworkState = { stage: { at: 'opening' }, kept: [], waits: false };

const NOT_THERE = 'A part of the page did not arrive. Connect to the network and try it again.';

/** Where something is under way that no link may cut. */
const UNDER_WAY = /^(run|voiceCheck|microphone|squadDay|warmUp|import)$/;

/** What reads, writes and keeps homework comes when there is some. */
export function createHomeworkHands({
  address,
  isStarting,
  ...parts
}: HomeworkParts & {
  address: Address;
  /** A session is about to run. */
  isStarting: () => boolean;
}): HomeworkSeat {
  const { store, storage } = parts;
  const place = loadedOnce(async () =>
    (await import('./homeworkPlace')).createHomeworkPlace({ ...parts, page: address.page }),
  );
  const patch = (change: Partial<HomeworkState>) =>
    store.patch({ homework: { ...store.state().homework, ...change } });
  const goTo = (change: Partial<HomeworkState>) => {
    patch(change);
    store.patch({ where: 'homework' });
  };

  /** Does it once what it needs is there; says so where that does not come. */
  const doing = (act: (here: HomeworkPlace) => void) =>
    void place().then(act, () => patch({ stage: { at: 'refused', say: NOT_THERE } }));
  const orSay = <T>(act: (here: HomeworkPlace) => Promise<T>) =>
    place().then(act, () => ({ say: NOT_THERE }));
  const orTell = (act: (here: HomeworkPlace) => Promise<string | null>) =>
    place().then(act, () => NOT_THERE);

  function open(read: (here: HomeworkPlace) => void) {
    goTo({ stage: { at: 'reading' }, waits: false });
    doing(read);
  }
  const openLink = () => open((here) => here.openText(address.hash()));

  address.onChange(() => {
    if (!isHandedOver(address.hash())) return;
    if (isStarting() || UNDER_WAY.test(store.state().where)) patch({ waits: true });
    else openLink();
  });
  if (isHandedOver(address.hash())) openLink();

  /** Whether anything is kept, so that nothing is fetched for nobody. */
  function isKept(): boolean {
    try {
      return storage().getItem(KEPT_KEY) !== null;
    } catch {
      return false;
    }
  }

  async function look() {
    if (!isKept()) return;
    await place().then(
      (here) => here.look(),
      () => undefined,
    );
  }

  return {
    look,
    goesOn: ({ homework }) =>
      homework === undefined ? {} : { over: () => doing((here) => here.over(homework.handover)) },
    show: () => goTo({ stage: { at: 'opening' } }),
    openWaiting: openLink,
    openText: (text) => open((here) => here.openText(text)),
    openFile: (file) => open((here) => here.openFile(file)),
    openKept: (id) => open((here) => here.openKept(id)),
    begin(listen) {
      parts.begins(listen);
      address.clear();
      doing((here) => here.begin(listen));
    },
    notThere: (missing) => doing((here) => here.notThere(missing)),
    remove(id) {
      address.clear();
      doing((here) => here.remove(id));
    },
    sendBack: () => orSay((here) => here.sendBack()),
    handOver: (allowed) => orSay((here) => here.handOver(allowed)),
    saveFile: () => orTell((here) => here.saveFile()),
    copyLink: () => orTell((here) => here.copyLink()),
    share: () => orTell((here) => here.share()),
    async join(person) {
      const trouble = await orTell((here) => here.join(person));
      if (trouble === null) address.clear();
      return trouble;
    },
    leave() {
      address.clear();
      store.patch({ where: 'people' });
      patch({ stage: { at: 'opening' } });
      void look();
    },
  };
}

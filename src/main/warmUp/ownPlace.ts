import { idFor } from '../../domain/warmUp/own';
import type { WarmUp } from '../../domain/warmUp/warmUp';
import type { OwnHands, WarmUpState } from '../../screens/warmUp/state';
import { download } from '../download';
import type { Parts } from '../parts';
import type { OwnTrouble } from './ownShelf';

/** What leads a group comes when it is needed first; so does what reads and writes files. */
export const loadWarmUp = () => import('./warmUpActor');
const loadFile = () => import('./warmUpFile');
export const NOT_ARRIVED =
  'A part of Sayso did not arrive. Connect to the network, and choose the warm-up again.';

const TROUBLES: Record<OwnTrouble, string> = {
  full: 'There is no room left on this device, so it was not kept. Remove a warm-up, or save this one as a file.',
  refused:
    'This browser keeps nothing, so warm-ups of your own are not kept here. Save each as a file.',
  damaged:
    'Some warm-ups of your own could not be read. They are set aside on this device; those that are listed are whole.',
};

export interface OwnPlace extends OwnHands {
  /** Lists what can be led anew, with what else is to be shown. */
  offer(change: Partial<WarmUpState>): Promise<void>;
}

/** Warm-ups of a coach's own: built, kept, removed, brought in and saved as files. */
export function createOwnPlace({
  parts: { book, manner, secondsOf },
  storage,
  state,
  patch,
}: {
  parts: Pick<Parts, 'book' | 'manner' | 'secondsOf'>;
  storage: () => Storage;
  /** Null where no group is led. */
  state: () => WarmUpState | null;
  patch: (change: Partial<WarmUpState>) => void;
}): OwnPlace {
  // A language that has no warm-ups has no list to stand in.
  const hasAny = Object.keys(book.warmUps).length > 0;

  const arrived = async () => {
    const loaded = await loadWarmUp().catch(() => null);
    return loaded === null ? null : { ...loaded, shelf: loaded.createOwnShelf(storage, book) };
  };

  const offer: OwnPlace['offer'] = async (change) => {
    const here = await arrived();
    if (state() === null) return;
    if (here === null) return patch({ ...change, trouble: NOT_ARRIVED });
    const { own, trouble } = hasAny ? here.shelf.load() : { own: [], trouble: null };
    patch({
      offers: here.offersOf({ book, secondsOf }, manner.now().stretch, hasAny ? own : []),
      trouble: trouble === null ? null : TROUBLES[trouble],
      ...change,
    });
  };

  const taken = () => [
    ...Object.keys(book.routines),
    ...(state()?.offers ?? []).map(({ id }) => id),
  ];

  /** Null once it is kept and listed. */
  async function kept(warmUp: WarmUp): Promise<string | null> {
    const here = await arrived();
    if (here === null) return NOT_ARRIVED;
    const trouble = here.shelf.keep(warmUp);
    if (trouble !== null) return TROUBLES[trouble];
    await offer({
      ...{ stage: 'choosing', building: null, wanted: warmUp.id },
      told: `“${warmUp.name}” is kept on this device.`,
    });
    return null;
  }

  return {
    offer,
    pace: () => ({ secondsOf, stretch: manner.now().stretch }),
    build: (from) => patch({ stage: 'building', building: from, told: null, trouble: null }),
    leaveBuilder() {
      const wanted = state()?.building?.id ?? '';
      patch({ stage: 'choosing', building: null, wanted: wanted === '' ? null : wanted });
    },
    keep: (warmUp) =>
      kept(warmUp.id === '' ? { ...warmUp, id: idFor(warmUp.name, taken()) } : warmUp),
    async remove(id) {
      const here = await arrived();
      if (here === null) return NOT_ARRIVED;
      const trouble = here.shelf.remove(id);
      if (trouble !== null) return TROUBLES[trouble];
      const name = state()?.offers.find((each) => each.id === id)?.name ?? id;
      await offer({ wanted: null, told: `“${name}” is removed.` });
      return null;
    },
    async bringIn(file) {
      const loaded = await loadFile().catch(() => null);
      if (loaded === null) return NOT_ARRIVED;
      const read = await loaded.readWarmUp(file, book, secondsOf);
      if ('say' in read) return read.say;
      const { id, ...what } = read.warmUp;
      const contentOf = ({ name, parts }: Pick<WarmUp, 'name' | 'parts'>) =>
        JSON.stringify([name, parts]);
      const same = state()?.offers.find(({ warmUp }) => contentOf(warmUp) === contentOf(what));
      if (same !== undefined) return `“${same.name}” is here already, just as it is in the file.`;
      return kept({ ...what, id: idFor(id, taken()) });
    },
    async saveFile(warmUp) {
      const loaded = await loadFile().catch(() => null);
      if (loaded === null) return NOT_ARRIVED;
      const id = warmUp.id === '' ? idFor(warmUp.name, []) : warmUp.id;
      download(`${id}.yaml`, loaded.warmUpText({ ...warmUp, id }), 'application/yaml');
      return null;
    },
  };
}

import { withKey, type OwnKey } from '../domain/hearing/deeds';
import { attachHeadset, type Hands } from '../ear/hands';
import type { KeysHands } from '../screens/keys/state';
import type { SeatStore } from '../screens/seat';
import { createKeysShelf, type KeysShelf } from './keysShelf';

/** The place at the seat of the keys; those that this device has kept hold at once. */
export function createKeysPlace({
  parts: { hands },
  store,
  shelf = createKeysShelf(() => localStorage),
  headset = 'mediaSession' in navigator ? navigator.mediaSession : undefined,
}: {
  parts: { hands: Pick<Hands, 'setKeys'> };
  store: SeatStore;
  shelf?: KeysShelf;
  headset?: Pick<MediaSession, 'setActionHandler'> | undefined;
}): KeysHands {
  const { own: kept, isDamaged } = shelf.load();
  hands.setKeys(kept);
  store.patch({ keys: { own: kept, trouble: isDamaged ? 'damaged' : null } });

  function choose(own: OwnKey[]) {
    hands.setKeys(own);
    store.patch({ keys: { own, trouble: shelf.save(own) ? null : 'refused' } });
  }

  return {
    show: () => store.patch({ where: 'keys' }),
    leave: () => store.patch({ where: 'gate' }),
    set: (key, deed) => choose(withKey(store.state().keys.own, key, deed)),
    reset: () => choose([]),
    hearHeadset(onKey) {
      const key = (press: { key: string }) => {
        onKey(press.key);
        return true;
      };
      return attachHeadset({ key }, headset);
    },
  };
}

import type { KeysHands } from '../../src/screens/keys/state';
import type { Did } from './fakeSeat';

/** Remembers what is done with the keys. */
export const fakeKeys = (did: Did[]): KeysHands => ({
  show: () => did.push(['showKeys']),
  leave: () => did.push(['leaveKeys']),
  set: (key, deed) => did.push(['setKey', key, deed]),
  reset: () => did.push(['resetKeys']),
  hearHeadset: () => () => undefined,
});

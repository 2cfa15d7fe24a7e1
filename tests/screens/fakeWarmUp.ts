import type { WarmUpHands } from '../../src/screens/warmUp/state';
import type { Did } from './fakeSeat';

/** Remembers what a leader does. */
export const fakeWarmUp = (did: Did[]): WarmUpHands => ({
  show: () => did.push(['warmUp']),
  begin: (choice) => did.push(['beginWarmUp', choice]),
  leave: () => did.push(['leaveWarmUp']),
});

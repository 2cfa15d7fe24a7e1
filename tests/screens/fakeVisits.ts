import type { VisitHands } from '../../src/screens/finished/state';
import type { Did } from './fakeSeat';

/** Remembers what is done with the record of a session. */
export const fakeVisits = (did: Did[]): VisitHands => ({
  open: (session) => did.push(['visit', session]),
});

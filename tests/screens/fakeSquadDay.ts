import type { SquadDayHands } from '../../src/screens/squadDay/state';
import type { Did } from './fakeSeat';

/** Remembers what is done on a squad day. */
export const fakeSquadDay = (did: Did[]): SquadDayHands => ({
  show: () => did.push(['squadDay']),
  keepDraft: () => undefined,
  begin: (choice) => did.push(['beginSquadDay', choice]),
  goOn: () => did.push(['goOnSquadDay']),
  end: () => did.push(['endSquadDay']),
  leave: () => did.push(['leaveSquadDay']),
});

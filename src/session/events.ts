import type { Reading } from '../domain/hearing/reply';
import type { Source } from '../domain/log';
import type { HearingEvent } from './hearing';
import { withLateNumber } from './latePain';
import type { SessionContext } from './sessionContext';
import type { SpokenEvent } from './speaking';
import type { StageReport } from './stage';
import type { StoredEvent } from './storing';
import { weighed, type Standing, type Weighed } from './weighing';

export type SessionMachineEvent =
  | HearingEvent
  | SpokenEvent
  | StoredEvent
  | { type: 'REPORT'; report: StageReport }
  /** Nobody will say more (a rehearsal's replies are used up): say where it stands and end. */
  | { type: 'REPLIES_ENDED' };

/** What an action changes of the session. */
export type Change = Partial<SessionContext>;

/** The event of something heard, weighed; any other here is a mistake in the machine. */
export function heardOf(
  context: Standing,
  event: SessionMachineEvent,
): HeardEvent & { reading: Weighed } {
  if (event.type !== 'HEARD') throw new Error(`${event.type} carries no reading.`);
  const { reading, prompt } = event;
  return { ...event, reading: weighed(context, withLateNumber(context, reading, prompt), prompt) };
}

type HeardEvent = Extract<SessionMachineEvent, { type: 'HEARD' }>;

/** Whose words an entry rests on; a reply by hand has none. */
export const sourceOf = ({ heard, confidence }: Reading): Source => ({
  by: heard === '' ? 'hand' : 'voice',
  text: heard,
  confidence,
});

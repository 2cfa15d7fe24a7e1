import { createActor, type InputFrom } from 'xstate';
import { sessionMachine } from '../session/sessionMachine';

export { textsAtOnce } from '../session/ahead';
export { countsFrom } from '../session/startedAt';

/** What runs one session; not started yet. */
export const createSessionActor = (input: InputFrom<typeof sessionMachine>) =>
  createActor(sessionMachine, { input });

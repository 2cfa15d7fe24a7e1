import { fromCallback } from 'xstate';
import type { Stage } from './stage';

export type SpokenEvent = { type: 'SPOKEN' };

/**
 * Says one text (nothing where it is empty) and sends SPOKEN when it ends. Silent at once when
 * its state is left.
 */
export const speaking = fromCallback<{ type: 'NONE' }, { stage: Stage; text: string }>(({ input, sendBack }) => {
  if (input.text === '') {
    sendBack({ type: 'SPOKEN' });
    return undefined;
  }
  return input.stage.say(input.text, () => sendBack({ type: 'SPOKEN' }));
});

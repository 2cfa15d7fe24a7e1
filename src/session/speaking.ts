import { fromCallback } from 'xstate';
import type { Cancel } from '../ports';
import type { Stage } from './stage';

export type SpokenEvent = { type: 'SPOKEN' };

/**
 * Says texts one after the other (empty ones are left out) and sends SPOKEN after the last.
 * Silent at once when its state is left.
 */
export const speaking = fromCallback<
  { type: 'NONE' },
  { stage: Stage; texts: string[]; afterMilliseconds?: number }
>(({ input: { stage, texts, afterMilliseconds }, sendBack }) => {
  const left = texts.filter((text) => text !== '');
  let cancel: Cancel | undefined;
  const next = () => {
    const text = left.shift();
    if (text === undefined) sendBack({ type: 'SPOKEN' });
    else cancel = stage.say(text, next);
  };
  const { clock } = stage;
  const waiting = afterMilliseconds ? clock.setTimeout(next, afterMilliseconds) : next();
  return () => {
    clock.clearTimeout(waiting);
    cancel?.();
  };
});

import { fromCallback } from 'xstate';
import { BREATH_SECONDS } from '../domain/pacing/line';
import type { Cancel } from '../ports';
import type { Stage } from './stage';

export type SpokenEvent = { type: 'SPOKEN' };

/**
 * Says texts one after the other (empty ones are left out), each with a breath after it, and sends
 * SPOKEN; after a question at once, since people answer fast. Silent at once when left.
 */
export const speaking = fromCallback<
  { type: 'NONE' },
  { stage: Stage; texts: string[]; isQuestion?: boolean }
>(({ input: { stage, texts, isQuestion = false }, sendBack }) => {
  const left = texts.filter((text) => text !== '');
  const { clock } = stage;
  if (left.length > 1) stage.prepare(left.slice(1), []);
  let cancel: Cancel | undefined;
  let breath: unknown;
  const next = () => {
    const text = left.shift();
    if (text === undefined) sendBack({ type: 'SPOKEN' });
    else cancel = stage.say(text, isQuestion && left.length === 0 ? next : breathe);
  };
  const breathe = () => {
    breath = clock.setTimeout(next, BREATH_SECONDS * 1000);
  };
  next();
  return () => {
    clock.clearTimeout(breath);
    cancel?.();
  };
});

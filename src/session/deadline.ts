import { fromCallback } from 'xstate';
import type { Clock } from '../ports';

export type DeadlinePassed = { type: 'DEADLINE' };

/** Somebody who began to speak is given this long before the question is asked over them. */
const SPEECH_HOLD_MILLISECONDS = 4000;

/**
 * Sends DEADLINE at an absolute time (at once if it has passed, so a restored question re-arms
 * itself). While somebody speaks it waits for their end, at most SPEECH_HOLD_MILLISECONDS.
 */
export const deadline = fromCallback<
  { type: 'ONSET' } | { type: 'NOTHING' },
  { clock: Clock; atMilliseconds: number }
>(({ input: { clock, atMilliseconds }, sendBack, receive }) => {
  let timer: unknown;
  const arm = (milliseconds: number) => {
    clock.clearTimeout(timer);
    timer = clock.setTimeout(
      () => sendBack({ type: 'DEADLINE' }),
      Math.max(0, milliseconds - clock.now()),
    );
  };
  receive((event) => {
    arm(
      event.type === 'ONSET'
        ? Math.max(atMilliseconds, clock.now() + SPEECH_HOLD_MILLISECONDS)
        : atMilliseconds,
    );
  });
  arm(atMilliseconds);
  return () => clock.clearTimeout(timer);
});

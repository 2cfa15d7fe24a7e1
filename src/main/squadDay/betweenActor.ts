import { createActor } from 'xstate';
import { betweenMachine, type BetweenInput, type Then } from '../../session/betweenMachine';

/** Waits for the next one; `asks` is told what the next word answers, `then` what was asked for. */
export function startBetween(
  input: BetweenInput,
  told: { asks: (asks: 'ready' | 'end') => void; then: (then: Then) => void },
): { stop: () => void } {
  const actor = createActor(betweenMachine, { input });
  actor.subscribe({
    next: ({ value }) =>
      told.asks(value === 'askingEnd' || value === 'sayingDeaf' ? 'end' : 'ready'),
    complete: () => told.then(actor.getSnapshot().output ?? { do: 'end' }),
  });
  actor.start();
  return { stop: () => actor.stop() };
}

import { createActor } from 'xstate';
import { planWarmUp, spokenSeconds } from '../../domain/warmUp/planning';
import type { WarmUp } from '../../domain/warmUp/warmUp';
import type { WarmUpOffer } from '../../screens/warmUp/state';
import type { WarmUpInput } from '../../session/leading';
import { warmUpMachine, type WarmUpContext } from '../../session/warmUpMachine';

export { createOwnShelf } from './ownShelf';

/** How a warm-up stands, after every step of it. */
export interface Stands {
  context: WarmUpContext;
  isHeld: boolean;
  asksEnd: boolean;
}

/** Leads a group; `over` is told how it ended. */
export function startWarmUp(
  input: WarmUpInput,
  told: {
    stands: (stands: Stands) => void;
    over: (how: 'completed' | 'stopped' | 'red-flag') => void;
  },
): { stop: () => void } {
  const actor = createActor(warmUpMachine, { input });
  actor.subscribe({
    next: ({ context, value }) =>
      told.stands({
        context,
        isHeld: value === 'held' || value === 'sayingAside',
        asksEnd: value === 'askingEnd',
      }),
    complete: () => {
      const reason = actor.getSnapshot().output;
      told.over(reason === 'stopped' || reason === 'red-flag' ? reason : 'completed');
    },
  });
  actor.start();
  return { stop: () => actor.stop() };
}

/** Longer than any can be drawn out. */
const LONG_SECONDS = 24 * 3600;

/** Each of these with what it takes to a group, at the pace of its voice. */
export const offersOf = (
  { book, secondsOf }: Pick<WarmUpInput, 'book' | 'secondsOf'>,
  stretch: number,
  own: readonly WarmUp[],
): WarmUpOffer[] =>
  [...Object.values(book.warmUps), ...own].map((warmUp) => {
    const spoken = spokenSeconds(secondsOf, stretch);
    const written = planWarmUp(book, warmUp, spoken);
    const none = planWarmUp(book, warmUp, spoken, { endSeconds: 0 });
    const most = planWarmUp(book, warmUp, spoken, { endSeconds: LONG_SECONDS });
    return {
      ...{ id: warmUp.id, name: warmUp.name, warmUp, isOwn: own.includes(warmUp) },
      seconds: 'leastSeconds' in written ? 0 : written.totalSeconds,
      leastSeconds: 'leastSeconds' in none ? none.leastSeconds : 0,
      mostSeconds: 'leastSeconds' in most ? 0 : most.totalSeconds,
    };
  });

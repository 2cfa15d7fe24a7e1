import type { PhoneReader } from '../phoneReader';
import { outputOf, OUTPUTS } from '../phones';
import type { Posteriors } from '../posteriors';
import { beliefOf, type CoachEar } from './coachEar';

/** The reader as it hears this coach: a phone that the voice makes another counts for both. */
export const fittedReader = (reader: PhoneReader, coach: CoachEar): PhoneReader => ({
  ...(reader.beside && { beside: fittedReader(reader.beside, coach) }),
  belief: beliefOf(reader.belief, coach),
  read: async (samples) => swapped(await reader.read(samples), coach),
});

/** Log posteriors in which each swapped phone has its share of the other's beside its own. */
export function swapped(posteriors: Posteriors, { swaps }: CoachEar): Posteriors {
  if (swaps.length === 0) return posteriors;
  const log = posteriors.log.slice();
  const places = swaps.flatMap(({ said, heard, share }) => {
    const [to, from] = [outputOf(said), outputOf(heard)];
    return to === undefined || from === undefined ? [] : [{ to, from, cost: Math.log(share) }];
  });
  for (let row = 0; row < log.length; row += OUTPUTS)
    for (const { to, from, cost } of places)
      log[row + to] = sumOfLogs(log[row + to] ?? 0, (posteriors.log[row + from] ?? 0) + cost);
  return { ...posteriors, log };
}

const sumOfLogs = (one: number, other: number) => {
  const most = Math.max(one, other);
  return most + Math.log(Math.exp(one - most) + Math.exp(other - most));
};

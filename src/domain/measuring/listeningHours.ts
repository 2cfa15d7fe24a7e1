import { FIGURES, valueOf } from './figures';

/**
 * How many hours a week a sound may be listened to, by its level in dB(A): 40 at 80 (75 for
 * children), half of that for every 3 more (WHO-ITU H.870). Why the music is paused and never
 * shouted down. Throws RangeError for a level that is no number.
 *
 * @example listeningHours(92) // 2.5
 */
export function listeningHours(decibels: number, forChildren = false): number {
  if (!Number.isFinite(decibels)) throw new RangeError(`${decibels} is no level in dB(A).`);
  const free = valueOf(forChildren ? FIGURES.childListeningDecibels : FIGURES.listeningDecibels);
  const halvings = (decibels - free) / valueOf(FIGURES.halvingDecibels);
  return valueOf(FIGURES.weeklyListeningHours) / 2 ** halvings;
}

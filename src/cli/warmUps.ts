/** The warm-ups of the scripts, as the verbs plan them. */
import type { CueBook } from '../domain/script';
import { planWarmUp, type WarmUpPlan } from '../domain/warmUp/planning';
import type { WarmUp } from '../domain/warmUp/warmUp';
import { sharedManner } from '../voice/manner';
import { secondsIn } from './durations';
import { Refused, WrongUsage } from './refused';

/** How long a text takes to say to a group, whose pace is slower, in whole milliseconds. */
export function groupSecondsIn(language: string): (text: string) => number {
  const manner = sharedManner();
  manner.speakFor('group');
  const secondsOf = secondsIn(language);
  return (text) => Math.round(secondsOf(text) * manner.now().stretch * 1000) / 1000;
}

/** @throws WrongUsage where none is named, Refused with the known ones where it is unknown. */
export function warmUpOf(book: CueBook, id: string | undefined): WarmUp {
  const known = Object.keys(book.warmUps).join(', ') || 'none in this language';
  if (id === undefined) throw new WrongUsage(`Name a warm-up: ${known}.`);
  const warmUp = book.warmUps[id];
  if (warmUp === undefined) throw new Refused(`There is no warm-up "${id}". Known: ${known}.`);
  return warmUp;
}

/**
 * Planned as written, or to end after so many minutes.
 *
 * @throws WrongUsage where that is no number, Refused where it is too few
 */
export function plannedWarmUp(book: CueBook, warmUp: WarmUp, minutes?: string): WarmUpPlan {
  const asked = minutes === undefined ? undefined : Number(minutes);
  if (asked !== undefined && !(asked > 0 && asked <= 60))
    throw new WrongUsage('--minutes is a number, more than 0 and at most 60.');
  const plan = planWarmUp(book, warmUp, groupSecondsIn(book.language), {
    endSeconds: asked === undefined ? undefined : asked * 60,
  });
  if ('leastSeconds' in plan) {
    const least = Math.ceil(plan.leastSeconds / 6) / 10;
    throw new Refused(`${warmUp.id} cannot end after ${minutes} minutes. It takes ${least}.`);
  }
  return plan;
}

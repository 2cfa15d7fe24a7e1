/** The warm-ups of the scripts, as the verbs plan and run them. */
import type { CueBook } from '../domain/script';
import { planWarmUp, spokenSeconds, type WarmUpPlan } from '../domain/warmUp/planning';
import type { WarmUp } from '../domain/warmUp/warmUp';
import { DEFAULT_SETTINGS, type EndReason } from '../domain/log';
import { sharedManner } from '../voice/manner';
import { createActor } from 'xstate';
import { warmUpMachine } from '../session/warmUpMachine';
import type { Said } from '../mixing/spoken';
import { rehearsalHall, type Hall, type TimedEvent } from './rehearsalHall';
import { secondsIn } from './durations';
import { Refused, WrongUsage } from './refused';

/** How much slower a group is spoken to. */
export function groupStretch(): number {
  const manner = sharedManner();
  manner.speakFor('group');
  return manner.now().stretch;
}

/** How long a text takes to say to a group, in whole milliseconds. */
export const groupSecondsIn = (language: string): ((text: string) => number) =>
  spokenSeconds(secondsIn(language), groupStretch());

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
  if (asked !== undefined && plan.totalSeconds < asked * 60 - 1) {
    const most = Math.floor(plan.totalSeconds / 6) / 10;
    throw new Refused(`${warmUp.id} cannot last ${minutes} minutes. It takes ${most} at most.`);
  }
  return plan;
}

/** Runs a warm-up on a virtual clock, with what its leader says: the same machine as in the app. */
export function rehearseWarmUp(
  book: CueBook,
  warmUp: WarmUp,
  hall: Omit<Hall, 'way'>,
  {
    endSeconds,
    callWord = null,
  }: {
    /** It is promised to end after so many seconds; as written where left out. */
    endSeconds?: number | undefined;
    callWord?: string | null | undefined;
  } = {},
): { timeline: TimedEvent[]; said: Said[]; reason: EndReason; tookSeconds: number } {
  const { clock, ports, runUntil, said, timeline } = rehearsalHall({ ...hall, way: 'group' });
  const startedAtMilliseconds = clock.now();
  const actor = createActor(warmUpMachine, {
    clock,
    input: {
      ...{ book, ports, warmUp, secondsOf: hall.secondsOf, settings: DEFAULT_SETTINGS },
      ...{ callWord, isLedByVoice: true },
      endsAtMilliseconds:
        endSeconds === undefined ? null : startedAtMilliseconds + endSeconds * 1000,
    },
  });
  actor.start();
  const isOver = () => actor.getSnapshot().status !== 'active';
  runUntil(isOver, () => undefined);
  const reason = actor.getSnapshot().output ?? 'replies-ended';
  actor.stop();
  return { timeline, said, reason, tookSeconds: (clock.now() - startedAtMilliseconds) / 1000 };
}

import type { Phase, SessionEvent } from '../ports';
import type { MusicLevel } from './music';

/** Between two lines music stays low, or it would pump. */
const STAYS_UNDER_SECONDS = 1.5;
/** Somebody speaks or is spoken to, or is thinking about an answer that the ear waits for. */
const UNDER: readonly Phase[] = ['cueing', 'asking', 'listening', 'confirming'];

/** After "stop" these still belong to the question whether to end. */
const STAYS_HALTED: readonly Phase[] = ['asking', 'listening', 'confirming', 'waiting', 'halted'];

/** What music does as the session goes on. */
export interface MusicPlace {
  phase: Phase | null;
  /** Until when words sound, with the pause after them; seconds of the session. */
  wordsUntilSeconds: number;
  halted: boolean;
}

export const MUSIC_PLACE: MusicPlace = { phase: null, wordsUntilSeconds: 0, halted: false };

/** The place after one more event of the timeline. */
export function musicPlaceAfter(
  place: MusicPlace,
  event: SessionEvent & { atSeconds: number },
): MusicPlace {
  switch (event.type) {
    case 'cue':
      return { ...place, wordsUntilSeconds: event.atSeconds + event.seconds + STAYS_UNDER_SECONDS };
    case 'tone':
      return event.name === 'halted' ? { ...place, halted: true } : place;
    case 'phase':
      return {
        ...place,
        phase: event.phase,
        halted: place.halted && STAYS_HALTED.includes(event.phase),
      };
    default:
      return place;
  }
}

/** "Stop" silences music too; words and open questions have it under them. */
export function musicLevelAt(place: MusicPlace, nowSeconds: number): MusicLevel {
  const { phase, halted, wordsUntilSeconds } = place;
  if (halted || phase === 'halted' || phase === 'ended') return 'off';
  const isUnder = nowSeconds < wordsUntilSeconds || (phase !== null && UNDER.includes(phase));
  return isUnder ? 'under' : 'full';
}

import { coachFrom, STRANGER, textOf, type KnownCoach } from './stored';

/** Why what is known of the coach is not kept, or was not found again. */
export type ShelfTrouble = 'refused' | 'full' | 'damaged';

/** Keeps what is known of the coach on this device. */
export interface CoachShelf {
  load(): { coach: KnownCoach; trouble: ShelfTrouble | null };
  /** Null once it is kept. */
  save(coach: KnownCoach): ShelfTrouble | null;
}

const KEY = 'sayso-coach';
/** What could not be read lies here, for whoever wants to look. */
const DAMAGED_KEY = 'sayso-coach-damaged';

/** In the page's storage; `storage` throws where the browser refuses it. */
export const createShelf = (storage: () => Storage): CoachShelf => ({
  load: () => {
    try {
      const text = storage().getItem(KEY);
      if (text === null) return { coach: STRANGER, trouble: null };
      const coach = coachFrom(text);
      if (coach !== null) return { coach, trouble: null };
      storage().setItem(DAMAGED_KEY, text);
      storage().removeItem(KEY);
      return { coach: STRANGER, trouble: 'damaged' };
    } catch {
      return { coach: STRANGER, trouble: 'refused' };
    }
  },
  save: (coach) => {
    try {
      storage().setItem(KEY, textOf(coach));
      return null;
    } catch (problem) {
      return problem instanceof Error && /quota/i.test(problem.name) ? 'full' : 'refused';
    }
  },
});

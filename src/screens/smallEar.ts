import type { SeatState } from './seat';

/** What is said where only the small recogniser hears. */
export const SMALL_EAR_WORDS: Record<NonNullable<SeatState['ear']['why']>, string> = {
  missing:
    'The better recogniser did not arrive, so the small one hears: it mishears more in a loud room. Check the connection and reload to try again.',
  damaged:
    'The better recogniser arrived damaged, so the small one hears: it mishears more in a loud room. Reload to try again.',
  slow: 'This device is too slow for the better recogniser, so the small one hears: it mishears more in a loud room.',
};

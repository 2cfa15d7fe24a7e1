import { fireEvent } from '@testing-library/react';
import { loadBook } from '../../src/cues/fromFolder';
import type { SeatState } from '../../src/screens/seat';
import { STATES } from './states';

/** A gate whose book has all its words, with own words and a call word. */
export const WORDED: SeatState = {
  ...STATES['gate-fitted']!,
  book: loadBook('scripts-cues', 'en'),
};

/** Unfolds the words of the coach, as a browser does at a tap. */
export function openWords(): void {
  const folded = document.querySelector<HTMLDetailsElement>('.your-voice details')!;
  folded.open = true;
  fireEvent(folded, new Event('toggle'));
}

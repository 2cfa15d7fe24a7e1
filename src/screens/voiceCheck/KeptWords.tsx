import type { CoachState, Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';

const TROUBLE_WORDS: Record<NonNullable<CoachState['trouble']>, string> = {
  refused:
    'This browser does not let the page keep it, as in a private window. It counts until this page is closed.',
  full: 'This device is out of space, so it is not kept. It counts until this page is closed: free some space and change it once more.',
  damaged:
    'What was kept of your voice and words could not be read. It was set aside on this device; check your voice and add your words once more.',
};

/** Whether what is known of the coach is kept; nothing where it is. */
export function KeptWords({ seat }: { seat: Seat }) {
  const trouble = useSeat(seat, (state) => state.coach.trouble);
  return trouble === null ? null : (
    <p className="trouble" role="alert">
      <Shape name="notice" /> {TROUBLE_WORDS[trouble]}
    </p>
  );
}

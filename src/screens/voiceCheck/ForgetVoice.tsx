import type { Seat } from '../seat';
import { useSeat } from '../useSeat';

/** Undoes the fit to this coach's voice in one tap; nothing where there is none. */
export function ForgetVoice({ seat }: { seat: Seat }) {
  const readings = useSeat(seat, (state) => state.coach.readings);
  return readings === 0 ? null : (
    <button type="button" onClick={() => seat.forgetVoice()}>
      Forget my voice
    </button>
  );
}

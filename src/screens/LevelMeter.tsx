import type { Seat } from './seat';
import { useSeat } from './useSeat';

const BARS = 12;

/** How loud it is now, as bars that grow in number and height. */
export function LevelMeter({ seat }: { seat: Seat }) {
  const lit = useSeat(seat, (state) => Math.round(state.microphone.level * BARS));
  return (
    <div
      className="level"
      role="meter"
      aria-label="Loudness"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round((lit / BARS) * 100)}
    >
      {Array.from({ length: BARS }, (_, bar) => (
        <span key={bar} className={bar < lit ? 'lit' : ''} />
      ))}
    </div>
  );
}

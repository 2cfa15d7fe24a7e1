import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';

/** Who is next on a squad day, and who is left. */
export default function SquadDayScreen({ seat }: { seat: Seat }) {
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  return (
    <main className="page" lang="en">
      <button type="button" className="back" onClick={() => seat.squadDay.leave()}>
        Athletes
      </button>
      <h1 ref={heading} tabIndex={-1}>
        Squad day
      </h1>
    </main>
  );
}

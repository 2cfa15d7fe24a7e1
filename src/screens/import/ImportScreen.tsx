import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';

/** Athletes out of a spreadsheet. */
export default function ImportScreen({ seat }: { seat: Seat }) {
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  return (
    <main className="page" lang="en">
      <button type="button" className="back" onClick={() => seat.people.show()}>
        Athletes
      </button>
      <h1 ref={heading} tabIndex={-1}>
        From a spreadsheet
      </h1>
    </main>
  );
}

import type { Seat } from '../seat';

/** All of them came: on to the list. */
export const Came = ({ seat }: { seat: Seat }) => (
  <>
    <p className="lead">
      They are in your list now. What the file did not know is noted on their own page, such as the
      day on which a guardian agreed.
    </p>
    <button type="button" className="first" onClick={() => seat.people.show()}>
      To the athletes
    </button>
  </>
);

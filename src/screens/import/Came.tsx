import type { Seat } from '../seat';

/** All of them came: on to the list. */
export const Came = ({ seat }: { seat: Seat }) => (
  <>
    <p className="lead">
      Everybody of the file is in the list now. What a file cannot know, such as the consent of a
      guardian, is noted on their own page.
    </p>
    <button type="button" className="first" onClick={() => seat.people.show()}>
      To the athletes
    </button>
  </>
);

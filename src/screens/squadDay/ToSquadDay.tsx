import type { Seat } from '../seat';

/** From the list of athletes to a squad day. */
export const ToSquadDay = ({ seat }: { seat: Seat }) => (
  <button type="button" onClick={() => seat.squadDay.show()}>
    Squad day
  </button>
);

import type { Seat } from '../seat';

/** From the gate to the keys. */
export const ToKeys = ({ seat }: { seat: Seat }) => (
  <button type="button" onClick={() => seat.keys.show()}>
    Keys, pedal and headset
  </button>
);

import { LockNow } from '../lock/LockNow';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';

/** From the first screen to the record as a whole; asks for saving where that is due. */
export function ToRecord({ seat }: { seat: Seat }) {
  const isDue = useSeat(seat, (state) => state.record.isSavingDue);
  return (
    <section className="to-record" aria-label="The record">
      {isDue && (
        <p id="saving-due">
          <Shape name="notice" /> Sessions of a week and more are on this device alone. Save them in
          a file: a browser may drop what it keeps, and a device may get lost.
        </p>
      )}
      <button
        type="button"
        className={isDue ? 'first' : ''}
        aria-describedby={isDue ? 'saving-due' : undefined}
        onClick={() => seat.record.show()}
      >
        The record: save it, lock it, or bring one in
      </button>
      <LockNow seat={seat} />
    </section>
  );
}

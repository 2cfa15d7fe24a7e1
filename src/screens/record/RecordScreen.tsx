import { Back } from '../Back';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { BringIn } from './BringIn';
import { LockRecord } from './LockRecord';
import { SaveRecord } from './SaveRecord';

/** The record of this device as a whole: how long it lasts, out into a file, and in from one. */
export default function RecordScreen({ seat }: { seat: Seat }) {
  const record = useSeat(seat, (state) => state.record);
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  return (
    <main className="page whole-record" lang="en">
      <header>
        <Back onClick={() => seat.record.leave()} />
        <h1 ref={heading} tabIndex={-1}>
          The record
        </h1>
        <p className="lead">
          Athletes, sessions and notes are kept on this device alone. Saved in a file they outlive
          it, and come to another one.
        </p>
      </header>
      <p role="status">{record.lasting}</p>
      {record.damage !== null && record.damage.length > 0 && (
        <section className="card" aria-labelledby="damage-title">
          <h2 id="damage-title">
            <Shape name="notice" /> Damaged
          </h2>
          <p>
            Nothing is graded from these entries. A file that was saved before mends them: bring it
            in.
          </p>
          <ul>
            {record.damage.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </section>
      )}
      <SaveRecord seat={seat} />
      <LockRecord seat={seat} />
      <BringIn seat={seat} />
    </main>
  );
}

import type { SessionHead } from '../../ports';
import type { Seat } from '../seat';

const when = (iso: string): string => {
  const time = new Date(iso);
  return Number.isNaN(time.getTime())
    ? iso
    : time.toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
};

/** A session that was cut off: take it up at its open question, or leave it as it is. */
export function Unfinished({
  seat,
  head,
  name,
}: {
  seat: Seat;
  head: SessionHead;
  /** Whose it is; null where nobody was named. */
  name: string | null;
}) {
  const routine = seat.state().routines.find(({ id }) => id === head.routine)?.name ?? head.routine;
  return (
    <section className="card unfinished" aria-labelledby="unfinished-title">
      <h2 id="unfinished-title">A session is not finished</h2>
      <p>
        {name !== null && `${name}: `}
        {routine}, begun {when(head.startedAt)}. Nothing that was said is lost; it goes on at the
        question that was open.
      </p>
      <div className="pair">
        <button type="button" className="first" onClick={() => seat.goOn()}>
          Go on
        </button>
        <button type="button" onClick={() => seat.discard()}>
          Leave it
        </button>
      </div>
    </section>
  );
}

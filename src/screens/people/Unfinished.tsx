import { Trouble } from '../forms/Trouble';
import { Invented } from './Invented';
import type { Seat, UnfinishedSession } from '../seat';
import { useSeat } from '../useSeat';
import { openWords, routineName } from '../words';

/** So many are shown at once; a long tail of others would push the athletes off the screen. */
const SHOWN = 3;

const when = (iso: string): string => {
  const time = new Date(iso);
  return Number.isNaN(time.getTime())
    ? iso
    : time.toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
};

/** Sessions that were cut off: take each up at its open question, or leave it as it is. */
export function Unfinished({ seat }: { seat: Seat }) {
  const unfinished = useSeat(seat, (state) => state.unfinished);
  if (unfinished.length === 0) return null;
  const more = unfinished.slice(SHOWN);
  return (
    <section className="card unfinished" aria-labelledby="unfinished-title">
      <h2 id="unfinished-title">
        {unfinished.length === 1
          ? 'A session is not finished'
          : `${unfinished.length} sessions are not finished`}
      </h2>
      <p>
        Nothing that was said is lost. {unfinished.length === 1 ? 'It goes' : 'Each goes'} on at the
        question that was open.
      </p>
      <Offered seat={seat} sessions={unfinished.slice(0, SHOWN)} />
      {more.length > 0 && (
        <details>
          <summary>{more.length} more, begun before those</summary>
          <Offered seat={seat} sessions={more} />
        </details>
      )}
    </section>
  );
}

const Offered = ({ seat, sessions }: { seat: Seat; sessions: UnfinishedSession[] }) => (
  <ul className="offered">
    {sessions.map((one) => (
      <One key={one.head.session} seat={seat} one={one} />
    ))}
  </ul>
);

function One({ seat, one: { head, open, trouble } }: { seat: Seat; one: UnfinishedSession }) {
  const book = useSeat(seat, (state) => state.book);
  const routines = useSeat(seat, (state) => state.routines);
  const people = useSeat(seat, (state) => state.people.all);
  const person = people.find((known) => known.person.id === head.person)?.person;
  const name = person?.name ?? null;
  const routine =
    routines.find(({ id }) => id === head.routine)?.name ?? routineName(book, head.routine);
  const what = name === null ? routine : `${name}: ${routine}`;
  const begun = when(head.startedAt);
  return (
    <li>
      <p>
        {person?.isInvented === true && (
          <>
            <Invented />{' '}
          </>
        )}
        {what}, begun {begun}.{open !== null && ` Open: ${openWords(book, open)}.`}
      </p>
      <Trouble words={trouble} />
      <div className="pair">
        <button
          type="button"
          className="first"
          aria-label={`Go on: ${what}, ${begun}`}
          onClick={() => seat.goOn(head.session)}
        >
          Go on
        </button>
        <button
          type="button"
          aria-label={`Leave it: ${what}, ${begun}`}
          onClick={() => seat.discard(head.session)}
        >
          Leave it
        </button>
      </div>
    </li>
  );
}

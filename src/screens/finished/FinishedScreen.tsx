import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { chosenOf } from '../people/state';
import { After } from './After';
import { REASON_WORDS } from './reasons';
import './finished.css';

/** Straight after a session: what it came to, and how. */
export default function FinishedScreen({ seat }: { seat: Seat }) {
  const end = useSeat(seat, (state) => state.view.end);
  const visit = useSeat(seat, (state) => state.visit);
  const book = useSeat(seat, (state) => state.book);
  const rehearsal = useSeat(seat, (state) => state.rehearsal);
  const one = useSeat(seat, (state) => chosenOf(state.people));
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  const reason = end?.reason ?? 'stopped';
  // Once its log is read, and after each correction, that tells what it came to.
  const shown = visit?.state === 'here' ? visit.end : end;
  const isNamed = one !== null && !rehearsal;
  return (
    <main className="page finished">
      <header className={`reason reason-${reason}`}>
        <h1 ref={heading} tabIndex={-1}>
          {reason === 'red-flag' && <Shape name="pain" />}
          {REASON_WORDS[reason].title}
        </h1>
        {isNamed && <p className="lead">{one.person.name}</p>}
        <p className="lead">{REASON_WORDS[reason].text}</p>
        {rehearsal && <p>This was a rehearsal: nobody was tested.</p>}
      </header>
      {shown !== null && <After seat={seat} book={book} end={shown} visit={visit} />}
      <button type="button" className="first" onClick={() => seat.leave()}>
        {isNamed ? `To the page of ${one.person.name}` : 'Back to the start'}
      </button>
    </main>
  );
}

import { After } from '../finished/After';
import { Timeline } from '../finished/Timeline';
import { REASON_WORDS } from '../finished/reasons';
import '../finished/finished.css';
import { dateInWords } from '../dates';
import { Invented } from '../people/Invented';
import { chosenOf } from '../people/state';
import { Trouble } from '../forms/Trouble';
import { Back } from '../Back';
import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { routineName } from '../words';

/** A past session, to read: what it came to, and how. */
export default function VisitScreen({ seat }: { seat: Seat }) {
  const visit = useSeat(seat, (state) => state.visit);
  const one = useSeat(seat, (state) => chosenOf(state.people));
  const book = useSeat(seat, (state) => state.book);
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  const head = visit?.state === 'here' ? visit.head : null;
  const back = () => (one === null ? seat.people.show() : seat.people.showOne(one.person.id));
  return (
    <main className="page finished">
      <header>
        <Back to={one?.person.name ?? 'Athletes'} onClick={back} />
        <h1 ref={heading} tabIndex={-1}>
          {head === null
            ? 'A past visit'
            : `${routineName(book, head.routine)}, ${dateInWords(head.startedAt)}`}
        </h1>
        {one?.person.isInvented === true && <Invented />}
        {head !== null && (
          <p className="lead">
            {head.ended === null
              ? 'It was cut off. What was found until then is kept.'
              : `${REASON_WORDS[head.ended].title}. ${REASON_WORDS[head.ended].text}`}
          </p>
        )}
      </header>
      {visit?.state === 'loading' && <p role="status">Reading the record.</p>}
      <Trouble words={visit?.state === 'trouble' ? visit.trouble : null} />
      {visit?.state === 'trouble' && visit.upTo !== undefined && (
        <>
          <p>This stands before the damage, as it was written:</p>
          <Timeline book={book} moments={visit.upTo} />
        </>
      )}
      {visit?.state === 'here' && <After seat={seat} book={book} end={visit.end} visit={visit} />}
    </main>
  );
}

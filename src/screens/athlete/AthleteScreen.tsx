import { Invented } from '../people/Invented';
import { chosenOf, type PersonKnown } from '../people/state';
import { Back } from '../Back';
import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { Forget } from './Forget';
import { Known } from './Known';
import { OpenNow } from './OpenNow';
import { Visits } from './Visits';
import './athlete.css';

/** One athlete: begin for them, what is open now, what is known of them, their visits. */
export default function AthleteScreen({ seat }: { seat: Seat }) {
  const one = useSeat(seat, (state) => chosenOf(state.people));
  return one === null ? <Gone seat={seat} /> : <Page key={one.person.id} seat={seat} one={one} />;
}

function Page({ seat, one: { person, open, visits } }: { seat: Seat; one: PersonKnown }) {
  const book = useSeat(seat, (state) => state.book);
  const today = useSeat(seat, (state) => state.people.today);
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  return (
    <main className="page athlete" lang="en">
      <header>
        <Back onClick={() => seat.people.show()} />
        <h1 ref={heading} tabIndex={-1}>
          {person.name}
        </h1>
        <p className="lead">
          {person.squad} {person.isInvented && <Invented />}
        </p>
      </header>
      <button type="button" className="first" onClick={() => seat.people.toGate(person.id)}>
        Begin
      </button>
      <OpenNow book={book} open={open} />
      <Known seat={seat} person={person} today={today} />
      <Visits seat={seat} book={book} person={person.id} visits={visits} />
      <Forget seat={seat} id={person.id} name={person.name} />
    </main>
  );
}

/** Deleted here or in another window. */
const Gone = ({ seat }: { seat: Seat }) => (
  <main className="page athlete" lang="en">
    <h1>Not kept here</h1>
    <p>This athlete is no longer kept on this device.</p>
    <button type="button" className="first" onClick={() => seat.people.show()}>
      To the athletes
    </button>
  </main>
);

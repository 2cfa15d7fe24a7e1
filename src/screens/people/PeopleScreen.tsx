import { useState } from 'react';
import { RUN_WITH_INVENTED } from '../../domain/people/inventedClub';
import { WithoutNetwork } from '../gate/WithoutNetwork';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { KeptHomework } from '../homework/KeptHomework';
import { ToSquadDay } from '../squadDay/ToSquadDay';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { AddPerson } from './AddPerson';
import { Elsewhere } from './Elsewhere';
import type { PersonKnown } from './state';
import { Searched } from './Searched';
import { TakeOut } from './TakeOut';
import { ToRecord } from '../record/ToRecord';
import { Trouble } from '../forms/Trouble';
import { Unfinished } from './Unfinished';
import './people.css';

/** The first screen: begin at once, go on with what was cut off, or choose for whom it is. */
export function PeopleScreen({ seat }: { seat: Seat }) {
  const people = useSeat(seat, (state) => state.people);
  const hasSquadDay = useSeat(seat, (state) => state.squadDay !== null);
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  return (
    <main className="page people" lang="en">
      <header>
        <h1 ref={heading} tabIndex={-1}>
          Sayso
        </h1>
        <p className="lead">
          It speaks each cue, listens for what you saw, and decides the next drill with you. Your
          hands and eyes stay on the athlete.
        </p>
      </header>
      <Elsewhere seat={seat} />
      <button type="button" className="first" onClick={() => seat.people.toGate(null)}>
        Begin without a name
      </button>
      <button type="button" onClick={() => seat.warmUp.show()}>
        <Shape name="both" /> Warm up a group
      </button>
      <Unfinished seat={seat} />
      <KeptHomework seat={seat} />
      <section className="athletes" aria-labelledby="athletes-title">
        <h2 id="athletes-title">Athletes</h2>
        <div className="ways-in">
          <AddPerson seat={seat} />
          <button type="button" onClick={() => seat.people.showImport()}>
            Import a list
          </button>
          {(people.all.length > 1 || hasSquadDay) && <ToSquadDay seat={seat} />}
        </div>
        <Trouble words={people.trouble} />
        {people.all.length > 0 && <Searched seat={seat} people={people} />}
        {people.state === 'loading' && <p role="status">Looking for your athletes.</p>}
        {people.state === 'here' && people.all.length === 0 && (
          <p>
            Nobody is kept here yet. Add an athlete, import a list, or look around with people who
            do not exist.
          </p>
        )}
        {people.all.length > 0 && <TakeOut seat={seat} all={people.all} />}
        <Club seat={seat} all={people.all} />
      </section>
      <button type="button" onClick={() => seat.homework.show()}>
        Homework: open what you were sent
      </button>
      <ToRecord seat={seat} />
      <WithoutNetwork seat={seat} />
    </main>
  );
}

/** Twelve invented athletes to look around with; they come and go with one tap. */
function Club({ seat, all }: { seat: Seat; all: PersonKnown[] }) {
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setBusy] = useState(false);
  const isHere = all.some(({ person }) => person.isInvented);
  const toggle = async () => {
    setBusy(true);
    setTrouble(await (isHere ? seat.people.removeInvented() : seat.people.showInvented()));
    setBusy(false);
  };
  const own = all
    .filter(({ person }) => person.isInvented)
    .flatMap(({ visits }) => visits)
    .filter(({ head }) => head.session.startsWith(RUN_WITH_INVENTED)).length;
  return (
    <div className="club">
      {own > 0 && (
        <p className="detail" id="club-takes">
          {own === 1
            ? 'The session that you ran with them goes'
            : `The ${own} sessions that you ran with them go`}{' '}
          away with the invented club.
        </p>
      )}
      <button
        type="button"
        disabled={isBusy}
        aria-describedby={own > 0 ? 'club-takes' : undefined}
        onClick={() => void toggle()}
      >
        <Shape name="not-tested" />{' '}
        {isHere ? 'Take the invented club away' : 'Show an invented club'}
      </button>
      <Trouble words={trouble} />
    </div>
  );
}

import { AREAS } from '../../domain/areas';
import { AreaNow } from '../people/AreaNow';
import { Invented } from '../people/Invented';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { Trouble } from '../forms/Trouble';
import { RED_FLAG_WORDS } from '../words';
import type { Sign } from './state';
import { comingOf, countOf, leftOpenOf, rowsOf, type Row } from './words';

/** After a squad day: how each area of each stands now, what was left open and why. */
export function Summary({ seat }: { seat: Seat }) {
  const squadDay = useSeat(seat, (state) => state.squadDay);
  const all = useSeat(seat, (state) => state.people.all);
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  const rows = squadDay === null ? [] : rowsOf(squadDay.day, all);
  const seen = rows.filter(({ stands }) => stands === 'seen').length;
  const left = comingOf(rows).length;
  return (
    <main className="page squad-day summary" lang="en">
      <h1 ref={heading} tabIndex={-1}>
        The squad day is over
      </h1>
      <p className="lead">
        {seen} of {countOf(rows.length, 'athlete', 'athletes')} seen
        {left > 0 && `, ${left} left`}.
      </p>
      <Trouble words={squadDay?.trouble ?? null} />
      <ul className="came-of">
        {rows.map((row) => (
          <OneAthlete
            key={row.person}
            seat={seat}
            row={row}
            signs={squadDay?.signs?.filter(({ person }) => person === row.person) ?? []}
          />
        ))}
      </ul>
      <div className="pair">
        <button type="button" className="first" onClick={() => seat.squadDay.leave()}>
          Done: to the athletes
        </button>
        {left > 0 && (
          <button type="button" onClick={() => seat.squadDay.goOn()}>
            Go on after all: {left} left
          </button>
        )}
      </div>
    </main>
  );
}

function OneAthlete({ seat, row, signs }: { seat: Seat; row: Row; signs: readonly Sign[] }) {
  const { person, open } = row.known;
  const leftOpen = leftOpenOf(row);
  return (
    <li className="card">
      <h2>{person.name}</h2>
      {person.isInvented && <Invented />}
      <p className="areas-now">
        {AREAS.map((area) => (
          <AreaNow key={area} area={area} open={open[area]} />
        ))}
      </p>
      {signs.map(({ id, flag, hadTurn, isNoted }) => (
        <p key={id} className="left-open">
          <Shape name="pain" /> A warning sign was said {hadTurn ? 'after' : 'before'} their turn:{' '}
          {RED_FLAG_WORDS[flag].toLowerCase()}. {isNoted ? 'It is noted' : 'It could not be noted'};
          whose it was, Sayso cannot tell.
        </p>
      ))}
      {leftOpen !== null && (
        <p className="left-open">
          <Shape name="notice" /> {leftOpen}
        </p>
      )}
      <button type="button" onClick={() => seat.people.showOne(person.id)}>
        To the page of {person.name}
      </button>
    </li>
  );
}

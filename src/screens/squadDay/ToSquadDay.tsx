import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { comingOf, countOf, rowsOf } from './words';

const DROPPED =
  'The squad day that was under way could not be read, and is dropped. Its sessions are in the record.';

/** From the list of athletes to a squad day: a new one, or the one that is under way. */
export function ToSquadDay({ seat }: { seat: Seat }) {
  const squadDay = useSeat(seat, (state) => state.squadDay);
  const all = useSeat(seat, (state) => state.people.all);
  const isOver = squadDay?.stage === 'over';
  if (squadDay?.stage === 'kept') {
    const left = comingOf(rowsOf(squadDay.day, all)).length;
    return (
      <section className="card unfinished" aria-labelledby="squad-day-title">
        <h3 id="squad-day-title">A squad day is under way</h3>
        <p>Nothing that was said is lost. It goes on with those who are left.</p>
        <Trouble words={squadDay.trouble} />
        <div className="pair">
          {left > 0 && (
            <button type="button" className="first" onClick={() => seat.squadDay.goOn()}>
              Go on with the squad day: {left} left
            </button>
          )}
          <button type="button" onClick={() => seat.squadDay.end()}>
            End the squad day
          </button>
        </div>
      </section>
    );
  }
  return (
    <>
      <Trouble words={squadDay?.stage === 'dropped' ? DROPPED : null} />
      <button type="button" onClick={() => seat.squadDay.show()}>
        {isOver
          ? `What came of the squad day: ${countOf(rowsOf(squadDay.day, all).length, 'athlete', 'athletes')}`
          : 'Squad day'}
      </button>
    </>
  );
}

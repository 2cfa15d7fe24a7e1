import { Shape } from '../Shape';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { comingOf, rowsOf } from '../squadDay/words';

/** On a squad day: whose session runs, and how many are left; nothing on any other day. */
export function OfSquadDay({ seat }: { seat: Seat }) {
  const squadDay = useSeat(seat, (state) => state.squadDay);
  const all = useSeat(seat, (state) => state.people.all);
  if (squadDay?.stage !== 'running') return null;
  const rows = rowsOf(squadDay.day, all);
  const now = rows.find(({ stands }) => stands === 'now');
  const left = comingOf(rows).length;
  return (
    <p className="of-squad-day">
      <Shape name="both" /> {now !== undefined && `For ${now.known.person.name} · `}
      {left === 0 ? 'the last one' : `${left} left after that`}
    </p>
  );
}

import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { Between } from './Between';
import { Choose } from './Choose';
import { Summary } from './Summary';
import '../gate/gate.css';
import '../people/people.css';
import './squadDay.css';

/** A squad day, but for its sessions: who and in which order, who is next, and what came of it. */
export default function SquadDayScreen({ seat }: { seat: Seat }) {
  const stage = useSeat(seat, (state) => state.squadDay?.stage ?? 'choosing');
  switch (stage) {
    case 'between':
    case 'running':
      return <Between seat={seat} />;
    case 'over':
      return <Summary seat={seat} />;
    default:
      return <Choose seat={seat} />;
  }
}

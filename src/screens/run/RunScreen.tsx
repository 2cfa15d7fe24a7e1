import { LevelMeter } from '../LevelMeter';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { useSessionKeys } from '../useSessionKeys';
import { Heard } from './Heard';
import { Notes } from './Notes';
import { OfSquadDay } from './OfSquadDay';
import { commandOf } from './replies';
import { Stage } from './Stage';
import { Troubles } from './Troubles';
import { Twins } from './Twins';
import { Typed } from './Typed';
import './run.css';
import './twins.css';

/** While a session runs: the one thing now, what can be said, and a hand on everything. */
export function RunScreen({ seat }: { seat: Seat }) {
  const rehearsal = useSeat(seat, (state) => state.rehearsal);
  const hears = useSeat(seat, (state) => state.microphone.state === 'hears');
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const screen = useFocusOnArrival<HTMLElement>();
  useSessionKeys(seat);

  return (
    <main className="run" ref={screen} tabIndex={-1} aria-label="Session">
      {rehearsal && (
        <div className="rehearsal">
          <p>
            <Shape name="voice" /> Rehearsal: a recorded coach speaks, the real ear listens.
          </p>
          <button type="button" onClick={() => seat.leave()}>
            Leave
          </button>
        </div>
      )}
      <Stage seat={seat} />
      <div className="run-side">
        <OfSquadDay seat={seat} />
        <Notes seat={seat} />
        <Heard seat={seat} />
        {hears && <LevelMeter seat={seat} />}
        <Troubles seat={seat} />
        <Twins seat={seat} />
        {!isHeard && <Typed seat={seat} />}
      </div>
      <button type="button" className="stop" onClick={() => seat.reply(commandOf('stop'))}>
        <Shape name="stop" /> Stop
      </button>
    </main>
  );
}

import { useLayoutEffect } from 'react';
import { LevelMeter } from '../LevelMeter';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { Heard } from './Heard';
import { Notes } from './Notes';
import { commandOf } from './replies';
import { Stage } from './Stage';
import { Troubles } from './Troubles';
import { Twins } from './Twins';
import { Typed } from './Typed';
import './run.css';
import './twins.css';

const USES_KEYS = 'button, a, input, select, textarea, summary';

/** While a session runs: the one thing now, what can be said, and a hand on everything. */
export function RunScreen({ seat }: { seat: Seat }) {
  const rehearsal = useSeat(seat, (state) => state.rehearsal);
  const hears = useSeat(seat, (state) => state.microphone.state === 'hears');
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const screen = useFocusOnArrival<HTMLElement>();
  // As soon as the screen is seen its keys count.
  useLayoutEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.repeat || event.ctrlKey || event.altKey || event.metaKey) return;
      if (event.key === 'Escape') {
        event.preventDefault();
        seat.reply(commandOf('stop'));
      } else if (!isUsed(event)) {
        seat.key(event);
      }
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [seat]);

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

/** Enter and Space belong to the control that has the focus; every other key is the session's. */
const isUsed = ({ key, target }: KeyboardEvent): boolean => {
  if (key === 'Tab') return true;
  if (!(target instanceof Element)) return false;
  if (target.matches('input, select, textarea')) return true;
  return (key === 'Enter' || key === ' ') && target.matches(USES_KEYS);
};

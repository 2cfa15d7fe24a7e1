import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { openWords, PHASE_WORDS } from '../words';
import './elsewhere.css';

/** A session that runs in another tab of this device: followed here, stopped, or gone on with. */
export function Elsewhere({ seat }: { seat: Seat }) {
  const elsewhere = useSeat(seat, (state) => state.elsewhere);
  const { book, routines } = useSeat(seat, (state) => state);
  const people = useSeat(seat, (state) => state.people.all);
  if (elsewhere === null) return null;
  const { routine, step, phase, cue, heard, mayGoOnHere, isAsked, trouble } = elsewhere;
  const name = people.find(({ person }) => person.id === elsewhere.person)?.person.name;
  const what = routines.find(({ id }) => id === routine)?.name ?? routine;
  return (
    <section className="card elsewhere" aria-labelledby="elsewhere-title">
      <h2 id="elsewhere-title">A session runs in another tab</h2>
      <p>
        {name === undefined ? what : `${name}: ${what}`}. It has the microphone; here it is only
        followed.
      </p>
      <dl>
        {step !== null && (
          <div>
            <dt>Now</dt>
            <dd>{openWords(book, step)}</dd>
          </div>
        )}
        {phase !== null && (
          <div>
            <dt>It is at</dt>
            <dd>{PHASE_WORDS[phase]}</dd>
          </div>
        )}
        {cue !== null && (
          <div>
            <dt>Said last</dt>
            <dd>{cue}</dd>
          </div>
        )}
        {heard !== null && heard !== '' && (
          <div>
            <dt>Heard last</dt>
            <dd>“{heard}”</dd>
          </div>
        )}
      </dl>
      <Trouble words={trouble} />
      {isAsked && <p role="status">The other tab stores what was said, and lets go.</p>}
      <div className="pair">
        {mayGoOnHere && (
          <button
            type="button"
            className="first"
            disabled={isAsked}
            onClick={() => seat.elsewhere.goOnHere()}
          >
            Go on here
          </button>
        )}
        <button type="button" onClick={() => seat.elsewhere.stop()}>
          <Shape name="stop" /> Stop
        </button>
      </div>
    </section>
  );
}

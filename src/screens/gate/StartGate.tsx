import { useEffect, useId, useRef, useState } from 'react';
import type { EquipmentId } from '../../domain/script';
import { equipmentOf } from '../../domain/equipment';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { Cautions } from './Cautions';
import { Hearing } from './Hearing';
import { Language } from './Language';
import { NotHere } from './NotHere';
import { Sound } from './Sound';
import { Unfinished } from './Unfinished';
import { WithoutNetwork } from './WithoutNetwork';
import { YourVoice } from './YourVoice';
import './gate.css';

/** Microphone states in which nothing will be heard, so that touch and keys lead. */
const CANNOT_HEAR = ['denied', 'none', 'unplugged', 'failed'];

/** Before a session: what to run, whether the ear hears, the cautions, and one tap to begin. */
export function StartGate({ seat }: { seat: Seat }) {
  const routines = useSeat(seat, (state) => state.routines);
  const book = useSeat(seat, (state) => state.book);
  const unfinished = useSeat(seat, (state) => state.unfinished);
  const microphone = useSeat(seat, (state) => state.microphone.state);
  const ear = useSeat(seat, (state) => state.ear.state);
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const [routine, setRoutine] = useState(routines[0]?.id ?? '');
  const [notHere, setNotHere] = useState<EquipmentId[]>([]);
  const [asked, setAsked] = useState(false);
  const [reminded, setReminded] = useState(false);
  const box = useRef<HTMLInputElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const reminder = useId();
  useEffect(() => heading.current?.focus(), []);

  const chosen = book.routines[routine];
  const equipment = chosen === undefined ? [] : equipmentOf(book, chosen);
  const missing = equipment.map(({ id }) => id).filter((id) => notHere.includes(id));
  const canHear = isHeard && !CANNOT_HEAR.includes(microphone) && ear !== 'failed';
  const begin = (listen: 'microphone' | 'hands') => {
    if (asked) return seat.begin({ routine, listen, ...(missing.length > 0 && { missing }) });
    setReminded(true);
    box.current?.focus();
  };
  const byVoice = (
    <button
      key="voice"
      type="button"
      className={canHear ? 'first' : ''}
      onClick={() => begin('microphone')}
    >
      <Shape name="ear" /> Begin by voice
    </button>
  );
  const byTouch = (
    <button
      key="touch"
      type="button"
      className={canHear ? '' : 'first'}
      onClick={() => begin('hands')}
    >
      Begin by touch
    </button>
  );

  return (
    <main className="page gate" lang="en">
      <header>
        <h1 ref={heading} tabIndex={-1}>
          Sayso
        </h1>
        <p className="lead">
          It speaks each cue, listens for what you saw, and decides the next drill with you. Your
          hands and eyes stay on the athlete.
        </p>
        {isHeard && (
          <div className="rehearsal">
            <p>
              New here? A recorded coach runs the session and the real ear listens. No microphone is
              needed.
            </p>
            <button type="button" onClick={() => seat.watchRehearsal(routine)}>
              Watch a rehearsal
            </button>
          </div>
        )}
        <WithoutNetwork seat={seat} />
      </header>

      {unfinished !== null && <Unfinished seat={seat} head={unfinished} />}

      <div className="settings">
        <fieldset className="card">
          <legend>What to run</legend>
          <div className="choices">
            {routines.map(({ id, name }) => (
              <label key={id} className="choice">
                <input
                  type="radio"
                  name="routine"
                  value={id}
                  checked={id === routine}
                  onChange={() => setRoutine(id)}
                />
                <span lang={book.language}>{name}</span>
              </label>
            ))}
          </div>
        </fieldset>

        <NotHere equipment={equipment} missing={notHere} onChange={setNotHere} />

        <Language seat={seat} />

        {isHeard && <Hearing seat={seat} />}

        <Sound seat={seat} hasVoices={isHeard} />

        {isHeard && <YourVoice seat={seat} />}
      </div>

      <Cautions>
        <label className="choice acknowledge">
          <input
            ref={box}
            type="checkbox"
            checked={asked}
            aria-describedby={reminded && !asked ? reminder : undefined}
            aria-invalid={reminded && !asked}
            onChange={(event) => setAsked(event.target.checked)}
          />
          <span>I asked about all of this, and they agree to begin.</span>
        </label>
        <p id={reminder} role="alert" className="reminder">
          {reminded && !asked && (
            <>
              <Shape name="notice" /> Ask first, then tick the box: a session with hands on begins
              after that.
            </>
          )}
        </p>
      </Cautions>

      <div className="begin">
        {!isHeard ? byTouch : canHear ? [byVoice, byTouch] : [byTouch, byVoice]}
      </div>
    </main>
  );
}

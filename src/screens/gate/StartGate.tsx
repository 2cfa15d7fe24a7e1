import { useId, useState } from 'react';
import type { Way } from '../../domain/areas';
import type { EquipmentId } from '../../domain/script';
import { equipmentOf } from '../../domain/equipment';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { ToKeys } from '../keys/ToKeys';
import { Invented } from '../people/Invented';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { AGREED_WORDS } from '../words';
import { Cautions } from './Cautions';
import { chosenOf } from '../people/state';
import { Hearing } from './Hearing';
import { Language } from './Language';
import { NotHere } from './NotHere';
import { OfThisOne } from './OfThisOne';
import { OneOf } from './OneOf';
import { Sound } from './Sound';
import { WayOfRunning } from './WayOfRunning';
import { WithoutNetwork } from './WithoutNetwork';
import { YourVoice } from './YourVoice';
import './gate.css';

/** Microphone states in which nothing will be heard, so that touch and keys lead. */
const CANNOT_HEAR = ['denied', 'none', 'unplugged', 'failed'];

/** Before a session: what to run, whether the ear hears, the cautions, and one tap to begin. */
export function StartGate({ seat }: { seat: Seat }) {
  const routines = useSeat(seat, (state) => state.routines);
  const book = useSeat(seat, (state) => state.book);
  const one = useSeat(seat, (state) => chosenOf(state.people));
  const today = useSeat(seat, (state) => state.people.today);
  const microphone = useSeat(seat, (state) => state.microphone.state);
  const ear = useSeat(seat, (state) => state.ear.state);
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const [routine, setRoutine] = useState(routines[0]?.id ?? '');
  const [notHere, setNotHere] = useState<EquipmentId[]>([]);
  const [wanted, setWay] = useState<Way>('hands-on');
  const agreed = useId();
  const heading = useFocusOnArrival<HTMLHeadingElement>();

  const chosen = book.routines[routine];
  const equipment = chosen === undefined ? [] : equipmentOf(book, chosen);
  const missing = equipment.map(({ id }) => id).filter((id) => notHere.includes(id));
  const canHear = isHeard && !CANNOT_HEAR.includes(microphone) && ear !== 'failed';
  const ways = chosen?.ways ?? [wanted];
  const way = ways.includes(wanted) ? wanted : (ways[0] ?? wanted);
  const { line, they } = AGREED_WORDS[way];
  const begin = (listen: 'microphone' | 'hands') =>
    seat.begin({ routine, way, listen, ...(missing.length > 0 && { missing }) });
  const byVoice = (
    <button
      key="voice"
      type="button"
      className={canHear ? 'first' : ''}
      aria-describedby={agreed}
      onClick={() => begin('microphone')}
    >
      <Shape name="ear" /> {they}: begin by voice
    </button>
  );
  const byTouch = (
    <button
      key="touch"
      type="button"
      className={canHear ? '' : 'first'}
      aria-describedby={agreed}
      onClick={() => begin('hands')}
    >
      {they}: begin by touch
    </button>
  );

  return (
    <main className="page gate" lang="en">
      <header>
        <button type="button" className="back" onClick={() => seat.people.show()}>
          <Shape name="left" /> Athletes
        </button>
        <h1 ref={heading} tabIndex={-1}>
          {one === null ? 'Begin without a name' : `Begin for ${one.person.name}`}
        </h1>
        {one?.person.isInvented === true && <Invented />}
        {one !== null && <OfThisOne known={one} today={today} />}
        {isHeard && one === null && (
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

      <div className="settings">
        <fieldset className="card">
          <legend>What to run</legend>
          <OneOf
            options={routines.map(({ id }) => id)}
            chosen={routine}
            onChange={setRoutine}
            words={(id) => (
              <span lang={book.language}>{routines.find((one) => one.id === id)?.name}</span>
            )}
          />
        </fieldset>

        {ways.length > 1 && <WayOfRunning ways={ways} way={way} onChange={setWay} />}

        <NotHere equipment={equipment} missing={notHere} onChange={setNotHere} />

        <Language seat={seat} />

        {isHeard && <Hearing seat={seat} />}

        <Sound seat={seat} hasVoices={isHeard} />

        {isHeard && <YourVoice seat={seat} />}

        <ToKeys seat={seat} />
      </div>

      <Cautions />

      <div className="begin">
        <p id={agreed}>{line}</p>
        {!isHeard ? byTouch : canHear ? [byVoice, byTouch] : [byTouch, byVoice]}
      </div>
    </main>
  );
}

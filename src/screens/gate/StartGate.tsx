import { useId, useState } from 'react';
import { Back } from '../Back';
import type { Seat } from '../seat';
import { ToKeys } from '../keys/ToKeys';
import { Elsewhere } from '../people/Elsewhere';
import { Invented } from '../people/Invented';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { AGREED_WORDS } from '../words';
import { BeginButtons } from './BeginButtons';
import { Cautions } from './Cautions';
import { chosenOf } from '../people/state';
import { Hearing } from './Hearing';
import { Language } from './Language';
import { OfThisOne } from './OfThisOne';
import { PhoneLevel } from './PhoneLevel';
import { Sound } from './Sound';
import { firstOf, toRunOf } from './toRun';
import { WhatToRun } from './WhatToRun';
import { WithoutNetwork } from './WithoutNetwork';
import { YourVoice } from './YourVoice';
import './gate.css';

/** Before a session: what to run, whether the ear hears, the cautions, and one tap to begin. */
export function StartGate({ seat }: { seat: Seat }) {
  const routines = useSeat(seat, (state) => state.routines);
  const book = useSeat(seat, (state) => state.book);
  const one = useSeat(seat, (state) => chosenOf(state.people));
  const today = useSeat(seat, (state) => state.people.today);
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const [wanted, setWanted] = useState(() => firstOf(routines));
  const agreed = useId();
  const heading = useFocusOnArrival<HTMLHeadingElement>();

  const toRun = toRunOf(book, wanted);
  const { routine, way, missing } = toRun;
  const { line, they } = AGREED_WORDS[way];

  return (
    <main className="page gate start-gate" lang="en">
      <header>
        <Back onClick={() => seat.people.show()} />
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
        <Elsewhere seat={seat} />
      </header>

      <div className="settings">
        <WhatToRun {...{ seat, wanted, toRun }} onChange={setWanted} />
      </div>

      <Cautions />

      <div className="settings">
        <Language seat={seat} />

        {isHeard && <Hearing seat={seat} />}

        <Sound seat={seat} />

        <PhoneLevel seat={seat} />

        {isHeard && <YourVoice seat={seat} />}

        <ToKeys seat={seat} />
      </div>

      <div className="begin">
        <p id={agreed}>{line}</p>
        <BeginButtons
          {...{ seat, they, agreed }}
          begin={(listen) =>
            seat.begin({ routine, way, listen, ...(missing.length > 0 && { missing }) })
          }
        />
      </div>
    </main>
  );
}

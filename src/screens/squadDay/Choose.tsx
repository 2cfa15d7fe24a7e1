import { useEffect, useId, useRef, useState } from 'react';
import type { Way } from '../../domain/areas';
import { BeginButtons } from '../gate/BeginButtons';
import { Cautions } from '../gate/Cautions';
import { Hearing } from '../gate/Hearing';
import { Sound } from '../gate/Sound';
import { firstOf, toRunOf } from '../gate/toRun';
import { WhatToRun } from '../gate/WhatToRun';
import { Back } from '../Back';
import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { AGREED_WORDS } from '../words';
import { ToMind } from './ToMind';
import { Who } from './Who';
import { countOf } from './words';

/** Before a squad day: who, in which order, what to run, and the cautions once for all of them. */
export function Choose({ seat }: { seat: Seat }) {
  const routines = useSeat(seat, (state) => state.routines);
  const book = useSeat(seat, (state) => state.book);
  const all = useSeat(seat, (state) => state.people.all);
  const today = useSeat(seat, (state) => state.people.today);
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const draft = useSeat(seat, (state) => state.squadDay?.draft);
  const [ids, setIds] = useState(draft?.people ?? []);
  const [wanted, setWanted] = useState(() => draft?.wanted ?? firstOf(routines));
  const now = useRef({ people: ids, wanted });
  useEffect(() => {
    now.current = { people: ids, wanted };
  });
  useEffect(() => () => seat.squadDay.keepDraft(now.current), [seat]);
  const agreed = useId();
  const heading = useFocusOnArrival<HTMLHeadingElement>();

  const chosen = ids.flatMap((id) => all.find(({ person }) => person.id === id) ?? []);
  const toRun = toRunOf(book, wanted);
  const { routine, way, missing } = toRun;
  const nobody = chosen.length === 0;

  return (
    <main className="page gate squad-day" lang="en">
      <header>
        <Back onClick={() => seat.squadDay.leave()} />
        <h1 ref={heading} tabIndex={-1}>
          Squad day
        </h1>
        <p className="lead">
          One athlete after the other, hands free. Sayso says who is next; “next person” comes back
          to somebody later.
        </p>
      </header>
      <Who all={all} ids={ids} onChange={setIds} />
      <Cautions />
      <div className="settings">
        <WhatToRun {...{ seat, wanted, toRun }} onChange={setWanted} />
        {isHeard && <Hearing seat={seat} />}
        <Sound seat={seat} />
      </div>
      <ToMind chosen={chosen} today={today} />
      <div className="begin">
        <p id={agreed}>
          {nobody
            ? 'Tick who comes first.'
            : `${countOf(chosen.length, 'athlete', 'athletes')}: ${AGREED_WORDS.group.line} ${wayLine(way)}`}
        </p>
        <BeginButtons
          {...{ seat, agreed }}
          they="They agree"
          isDisabled={nobody}
          begin={(listen) =>
            seat.squadDay.begin({
              people: chosen.map(({ person }) => person.id),
              ...{ routine, way, listen, missing },
            })
          }
        />
      </div>
    </main>
  );
}

const wayLine = (way: Way): string =>
  way === 'hands-on' ? 'Each agrees to hands on.' : 'Each has heard the cautions.';

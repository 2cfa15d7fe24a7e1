import { useId, useState } from 'react';
import type { Way } from '../../domain/areas';
import { equipmentOf } from '../../domain/equipment';
import type { EquipmentId } from '../../domain/script';
import { Cautions } from '../gate/Cautions';
import { NotHere } from '../gate/NotHere';
import { OneOf } from '../gate/OneOf';
import { WayOfRunning } from '../gate/WayOfRunning';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { AGREED_WORDS } from '../words';
import { ToMind } from './ToMind';
import { Who } from './Who';
import { countOf } from './words';

/** Microphone states in which nothing will be heard, so that touch and keys lead. */
const CANNOT_HEAR = ['denied', 'none', 'unplugged', 'failed'];

/** Before a squad day: who, in which order, what to run, and the cautions once for all of them. */
export function Choose({ seat }: { seat: Seat }) {
  const routines = useSeat(seat, (state) => state.routines);
  const book = useSeat(seat, (state) => state.book);
  const all = useSeat(seat, (state) => state.people.all);
  const today = useSeat(seat, (state) => state.people.today);
  const microphone = useSeat(seat, (state) => state.microphone.state);
  const ear = useSeat(seat, (state) => state.ear.state);
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const [ids, setIds] = useState<string[]>([]);
  const [routine, setRoutine] = useState(routines[0]?.id ?? '');
  const [notHere, setNotHere] = useState<EquipmentId[]>([]);
  const [wanted, setWay] = useState<Way>('hands-on');
  const agreed = useId();
  const heading = useFocusOnArrival<HTMLHeadingElement>();

  const chosen = ids.flatMap((id) => all.find(({ person }) => person.id === id) ?? []);
  const run = book.routines[routine];
  const equipment = run === undefined ? [] : equipmentOf(book, run);
  const missing = equipment.map(({ id }) => id).filter((id) => notHere.includes(id));
  const ways = run?.ways ?? [wanted];
  const way = ways.includes(wanted) ? wanted : (ways[0] ?? wanted);
  const canHear = isHeard && !CANNOT_HEAR.includes(microphone) && ear !== 'failed';
  const nobody = chosen.length === 0;
  const begin = (listen: 'microphone' | 'hands') =>
    seat.squadDay.begin({
      people: chosen.map(({ person }) => person.id),
      ...{ routine, way, listen, missing },
    });
  const button = (listen: 'microphone' | 'hands') => (
    <button
      key={listen}
      type="button"
      className={(listen === 'microphone') === canHear ? 'first' : ''}
      aria-describedby={agreed}
      disabled={nobody}
      onClick={() => begin(listen)}
    >
      {listen === 'microphone' && <Shape name="ear" />} They agree: begin by{' '}
      {listen === 'microphone' ? 'voice' : 'touch'}
    </button>
  );

  return (
    <main className="page gate squad-day" lang="en">
      <header>
        <button type="button" className="back" onClick={() => seat.squadDay.leave()}>
          <Shape name="left" /> Athletes
        </button>
        <h1 ref={heading} tabIndex={-1}>
          Squad day
        </h1>
        <p className="lead">
          One athlete after the other, hands free. Sayso says who is next; “next person” comes back
          to somebody later.
        </p>
      </header>
      <Who all={all} ids={ids} onChange={setIds} />
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
      </div>
      <ToMind chosen={chosen} today={today} />
      <Cautions />
      <div className="begin">
        <p id={agreed}>
          {nobody
            ? 'Tick who comes first.'
            : `${countOf(chosen.length, 'athlete', 'athletes')}: ${AGREED_WORDS.group.line} ${wayLine(way)}`}
        </p>
        {!isHeard
          ? button('hands')
          : canHear
            ? [button('microphone'), button('hands')]
            : [button('hands'), button('microphone')]}
      </div>
    </main>
  );
}

const wayLine = (way: Way): string =>
  way === 'hands-on' ? 'Each agrees to hands on.' : 'Each has heard the cautions.';

import { useId, useState } from 'react';
import { dateInWords } from '../dates';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { AREA_WORDS } from '../words';
import type { CameBack } from './state';

const NOBODY = '';

interface CameBackProps {
  seat: Seat;
  sessions: CameBack[];
  person: string | null;
}

/** What came back, before it is taken: of whom it is, and when it was done. */
export function CameBackCard({ seat, sessions, person }: CameBackProps) {
  const all = useSeat(seat, (state) => state.people.all);
  const known = all.find((one) => one.person.id === person)?.person.name ?? null;
  const [chosen, setChosen] = useState(person ?? NOBODY);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setBusy] = useState(false);
  const id = useId();
  const isNew = sessions.some(({ isHere }) => !isHere);
  const join = async () => {
    setBusy(true);
    setTrouble(await seat.homework.join(chosen === NOBODY ? null : chosen));
    setBusy(false);
  };
  return (
    <section className="card" aria-labelledby="came-title">
      <h2 id="came-title">{known ?? 'Nobody that this device handed it to'}</h2>
      <p>
        <Shape name="notice" /> Reported by the athlete: nobody saw it. It makes nothing ready.
      </p>
      <ul>
        {sessions.map(({ session, startedAt, areas, isHere }) => (
          <li key={session}>
            {dateInWords(startedAt)}:{' '}
            {areas.map((area) => AREA_WORDS[area].toLowerCase()).join(', ')}
            {isHere && ', is here already'}
          </li>
        ))}
      </ul>
      {isNew && known === null && (
        <div className="field">
          <label htmlFor={id}>Whose is it?</label>
          <select id={id} value={chosen} onChange={({ target }) => setChosen(target.value)}>
            <option value={NOBODY}>Nobody named</option>
            {all.map((one) => (
              <option key={one.person.id} value={one.person.id}>
                {one.person.name}
              </option>
            ))}
          </select>
        </div>
      )}
      {isNew ? (
        <button type="button" className="first" disabled={isBusy} onClick={() => void join()}>
          Take it into the record
        </button>
      ) : (
        <p>All of it is in the record already.</p>
      )}
      <Trouble words={trouble} />
    </section>
  );
}

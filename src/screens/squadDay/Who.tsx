import { useId, useState } from 'react';
import { squadsOf } from '../../domain/people/found';
import type { PersonKnown } from '../people/state';
import { Invented } from '../people/Invented';
import { Order } from './Order';
import { countOf } from './words';

/** Who is seen today: a whole squad at once, or one by one, and in which order. */
export function Who({
  all,
  ids,
  onChange,
}: {
  all: PersonKnown[];
  ids: string[];
  onChange: (ids: string[]) => void;
}) {
  const [squad, setSquad] = useState('');
  const field = useId();
  const squads = squadsOf(all.map(({ person }) => person));
  const shown = all.filter(({ person }) => squad === '' || person.squad === squad);
  const missing = shown.map(({ person }) => person.id).filter((id) => !ids.includes(id));
  const chosen = ids.flatMap((id) => all.find(({ person }) => person.id === id) ?? []);
  const tick = (id: string, isTicked: boolean) =>
    onChange(isTicked ? [...ids, id] : ids.filter((one) => one !== id));
  return (
    <>
      <fieldset className="card who-comes">
        <legend>Who comes</legend>
        {squads.length > 0 && (
          <div className="field">
            <label htmlFor={field}>Show</label>
            <select id={field} value={squad} onChange={(event) => setSquad(event.target.value)}>
              <option value="">Everybody</option>
              {squads.map((each) => (
                <option key={each} value={each}>
                  {each}
                </option>
              ))}
            </select>
          </div>
        )}
        <button
          type="button"
          disabled={missing.length === 0}
          onClick={() => onChange([...ids, ...missing])}
        >
          Tick {squad === '' ? 'everybody' : `all of ${squad}`} ({shown.length})
        </button>
        <div className="choices">
          {shown.map(({ person }) => (
            <label key={person.id} className="choice">
              <input
                type="checkbox"
                checked={ids.includes(person.id)}
                onChange={({ target }) => tick(person.id, target.checked)}
              />
              <span>
                {person.name} {person.isInvented && <Invented />}
              </span>
            </label>
          ))}
        </div>
      </fieldset>
      <section className="card" aria-labelledby="order-title">
        <h2 id="order-title">In this order</h2>
        <p role="status">
          {chosen.length === 0
            ? 'Nobody is ticked yet.'
            : `${countOf(chosen.length, 'athlete', 'athletes')}, the first on top.`}
        </p>
        <Order chosen={chosen} onChange={onChange} />
      </section>
    </>
  );
}

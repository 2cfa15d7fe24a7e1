import { useId, useState } from 'react';
import { AREAS } from '../../domain/areas';
import { found } from '../../domain/people/found';
import type { Seat } from '../seat';
import { AreaNow } from './AreaNow';
import { Invented } from './Invented';
import { Narrow } from './Narrow';
import { keyOf, narrowed, choicesOf } from './narrowed';
import { OfSquad } from './OfSquad';
import type { PeopleState, PersonKnown } from './state';

/** One field for names and squads, one choice of whom to show, and those whom they find. */
export function Searched({ seat, people }: { seat: Seat; people: PeopleState }) {
  const { all } = people;
  const [text, setText] = useState('');
  const field = useId();
  // A squad that is gone shows everybody.
  const isThere = choicesOf(all).some(({ only }) => keyOf(only) === keyOf(people.only ?? null));
  const only = isThere ? (people.only ?? null) : null;
  const shown = narrowed(all, only);
  const persons = found(
    shown.map(({ person }) => person),
    text,
  );
  const rows = persons.flatMap(({ id }) => shown.find(({ person }) => person.id === id) ?? []);
  return (
    <>
      <div className="finding">
        <div className="search">
          <label htmlFor={field}>Find by name or squad</label>
          <input
            id={field}
            type="search"
            autoComplete="off"
            value={text}
            onChange={(event) => setText(event.target.value)}
          />
        </div>
        <Narrow all={all} only={only} onChange={(wanted) => seat.people.narrow(wanted)} />
      </div>
      <p role="status" className="detail">
        {text.trim() === '' && only === null
          ? `${all.length} ${all.length === 1 ? 'athlete' : 'athletes'}`
          : rows.length === 0
            ? 'Nobody is called that.'
            : `${rows.length} of ${all.length}`}
      </p>
      {only !== null && typeof only === 'object' && (
        <OfSquad key={only.squad} seat={seat} squad={only.squad} />
      )}
      <ul className="people-list">
        {rows.map((known) => (
          <li key={known.person.id}>
            <OneRow seat={seat} known={known} />
          </li>
        ))}
      </ul>
    </>
  );
}

const OneRow = ({ seat, known: { person, open } }: { seat: Seat; known: PersonKnown }) => (
  <button type="button" className="person" onClick={() => seat.people.showOne(person.id)}>
    <span className="who">
      <span className="name">{person.name}</span>{' '}
      {person.squad !== null && <span className="squad">{person.squad}</span>}
      {person.isInvented && <Invented />}
    </span>
    <span className="areas-now">
      {AREAS.map((area) => (
        <AreaNow key={area} area={area} open={open[area]} />
      ))}
    </span>
  </button>
);

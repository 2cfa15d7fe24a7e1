import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { rowsOf, STANDING_SHAPES, STANDING_WORDS } from './words';

/** The day as it stands: who was seen, who is to come, who comes back later. */
export function WhatIsLeft({ seat }: { seat: Seat }) {
  const day = useSeat(seat, (state) => state.squadDay?.day ?? null);
  const all = useSeat(seat, (state) => state.people.all);
  if (day === null) return null;
  return (
    <section aria-labelledby="left-title">
      <h2 id="left-title">The day so far</h2>
      <ol className="what-is-left">
        {rowsOf(day, all).map(({ known: { person }, stands }) => (
          <li key={person.id} className={`stands-${stands}`}>
            <Shape name={STANDING_SHAPES[stands]} /> <span className="name">{person.name}</span>{' '}
            <span className="detail">{STANDING_WORDS[stands]}</span>
          </li>
        ))}
      </ol>
    </section>
  );
}

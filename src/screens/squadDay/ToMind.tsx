import { consentMissing } from '../../domain/people/age';
import { OfThisOne } from '../gate/OfThisOne';
import type { PersonKnown } from '../people/state';
import { Shape } from '../Shape';

/** What has to be kept in mind of each, and for whom consent is missing; nothing where there is none. */
export function ToMind({ chosen, today }: { chosen: PersonKnown[]; today: string }) {
  const without = chosen.filter(({ person }) => consentMissing(person, today));
  const minded = chosen.filter((known) => hasToMind(known, today));
  if (minded.length === 0) return null;
  return (
    <section className="card to-mind" aria-labelledby="to-mind-title">
      <h2 id="to-mind-title">To keep in mind today</h2>
      {without.length > 0 && (
        <p className="consent">
          <Shape name="notice" /> No consent of a guardian is noted for{' '}
          {without.map(({ person }) => person.name).join(', ')}. Have it before their turn.
        </p>
      )}
      <ul className="minded">
        {minded.map((known) => (
          <li key={known.person.id}>
            <h3>{known.person.name}</h3>
            <OfThisOne known={known} today={today} />
          </li>
        ))}
      </ul>
    </section>
  );
}

const hasToMind = (known: PersonKnown, today: string): boolean =>
  OfThisOne({ known, today }) !== null;

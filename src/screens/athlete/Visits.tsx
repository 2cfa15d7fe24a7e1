import { LastNote } from './LastNote';
import type { CueBook } from '../../domain/script';
import type { SessionOutcomes } from '../../ports';
import { dateInWords } from '../dates';
import type { Seat } from '../seat';
import { AREA_WORDS, OUTCOME_WORDS, routineName } from '../words';

/** Their sessions, newest first; each opens what it came to. */
export const Visits = ({
  seat,
  book,
  person,
  visits,
}: {
  seat: Seat;
  book: CueBook;
  person: string;
  visits: SessionOutcomes[];
}) => (
  <section className="card" aria-labelledby="visits-title">
    <h2 id="visits-title">Visits</h2>
    {visits.length === 0 && <p>None yet.</p>}
    <LastNote seat={seat} person={person} />
    {visits.length > 0 && (
      <ol className="visits">
        {visits.map(({ head, areas }) => (
          <li key={head.session}>
            <button type="button" onClick={() => seat.visits.open(head.session)}>
              <span className="name">
                {dateInWords(head.startedAt)}, {routineName(book, head.routine)}
              </span>
              <span className="detail">
                {areas.length === 0
                  ? 'No outcome'
                  : areas
                      .map(
                        ({ area, outcome }) =>
                          `${AREA_WORDS[area]} ${OUTCOME_WORDS[outcome].toLowerCase()}`,
                      )
                      .join(', ')}
                {head.ended === null && ', cut off'}
                {head.isReported && ', reported by the athlete'}
              </span>
            </button>
          </li>
        ))}
      </ol>
    )}
  </section>
);

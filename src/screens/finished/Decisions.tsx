import type { CueBook } from '../../domain/script';
import type { Told } from '../view';
import { AREA_WORDS, nameOf } from '../words';

/** What was decided after each answer, with the reason and the rule behind it. */
export const Decisions = ({
  book,
  decisions,
}: {
  book: CueBook;
  decisions: Told<'decision'>[];
}) => (
  <section className="card" aria-labelledby="decisions-title">
    <h2 id="decisions-title">Decisions and why</h2>
    {decisions.length === 0 ? (
      <p>Nothing had to be decided.</p>
    ) : (
      <ol className="decisions">
        {decisions.map((decision, index) => (
          <li key={index}>
            <p className="because">{decision.because}</p>
            <p className="detail">
              {[
                decision.area === null ? '' : AREA_WORDS[decision.area],
                decision.to === null ? '' : `→ ${nameOf(book, decision.to)}`,
                `rule ${decision.rule}`,
              ]
                .filter((part) => part !== '')
                .join(' · ')}
            </p>
          </li>
        ))}
      </ol>
    )}
  </section>
);

import type { CueBook } from '../../domain/script';
import type { Told } from '../view';
import { AREA_WORDS, nameOf } from '../words';

/** What was decided and not taken back, with the reason, the rule behind it and who decided. */
export const Decisions = ({
  book,
  decisions,
}: {
  book: CueBook;
  decisions: Told<'end'>['decisions'];
}) => (
  <section className="card" aria-labelledby="decisions-title">
    <h2 id="decisions-title">Decisions and why</h2>
    {decisions.length === 0 ? (
      <p>Nothing had to be decided.</p>
    ) : (
      <details>
        <summary>All {decisions.length}, in their order</summary>
        <ol className="decisions">
          {decisions.map((decision, index) => (
            <li key={index}>
              <p className="because">{decision.because}</p>
              <p className="detail">{detailOf(book, decision)}</p>
            </li>
          ))}
        </ol>
      </details>
    )}
  </section>
);

function detailOf(book: CueBook, { area, to, rule, by }: Told<'end'>['decisions'][number]): string {
  const where = area === null ? '' : `${AREA_WORDS[area]}, `;
  const next = to === null ? '' : `on to ${nameOf(book, to)}, `;
  return `${where}${next}rule ${rule}${by === 'coach' ? ', decided by the coach' : ''}`;
}

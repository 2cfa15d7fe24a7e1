import { titled } from '../../domain/reporting/wording';
import type { CueBook } from '../../domain/script';
import type { Told } from '../view';
import { nameOf } from '../words';

/** What the angles say of each check that has any; nothing where none was said. */
export function Measured({ book, measured }: { book: CueBook; measured: Told<'end'>['measured'] }) {
  const sources = [...new Set(measured.flatMap((check) => check.sources))];
  if (measured.length === 0) return null;
  return (
    <section className="card" aria-labelledby="measured-title">
      <h2 id="measured-title">Angles</h2>
      {measured.map(({ check, told }) => (
        <div key={check} className="measured">
          <h3 id={`measured-${check}`}>{titled(nameOf(book, check))}</h3>
          <ul aria-labelledby={`measured-${check}`}>
            {told.map(({ what, says }) => (
              <li key={what}>
                <p className="angle">{what}</p>
                {says !== '' && <p>{says}</p>}
              </li>
            ))}
          </ul>
        </div>
      ))}
      {sources.length > 0 && (
        <details>
          <summary>Where these figures come from</summary>
          <ul className="sources">
            {sources.map((source) => (
              <li key={source}>{source}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

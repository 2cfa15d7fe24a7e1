import { liftName, titled } from '../../domain/reporting/wording';
import type { CueBook } from '../../domain/script';
import { Shape } from '../Shape';
import type { Told } from '../view';

/**
 * The families of lifts that may be taught now, and what is missing for the rest. What an athlete
 * found alone goes to a coach first (rule 12.13).
 */
export const Lifts = ({ book, end }: { book: CueBook; end: Told<'end'> }) => (
  <section className="card" aria-labelledby="lifts-title">
    <h2 id="lifts-title">
      {end.reportedBy === 'athlete' ? 'Show these to your coach' : 'Lifts that may be taught'}
    </h2>
    {end.reportedBy === 'athlete' && end.liftsReady.length > 0 && (
      <p>You reported this yourself. A coach should see it before these lifts are taught.</p>
    )}
    {end.liftsReady.length === 0 ? (
      <p>None yet from what was tested in this session.</p>
    ) : (
      <ul className="lifts">
        {end.liftsReady.map((lift) => (
          <li key={lift}>
            <Shape name="held" /> {titled(liftName(book, lift))}
          </li>
        ))}
      </ul>
    )}
    {end.liftsMissing.length > 0 && (
      <details>
        <summary id="lifts-missing-title">Not yet, and what is missing</summary>
        <ul className="lifts-missing" aria-labelledby="lifts-missing-title">
          {end.liftsMissing.map(({ lift, sentence }) => (
            <li key={lift}>{sentence}</li>
          ))}
        </ul>
      </details>
    )}
  </section>
);

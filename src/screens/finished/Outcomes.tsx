import type { AreaOutcome } from '../../domain/areas';
import { Shape, type ShapeName } from '../Shape';
import type { Told } from '../view';
import { AREA_WORDS, OUTCOME_WORDS } from '../words';

const OUTCOME_SHAPES: Record<AreaOutcome, ShapeName> = {
  ready: 'held',
  working: 'short',
  referred: 'pain',
  unfinished: 'not-tested',
};

/** What became of each area, the pattern of what failed, and every reason for it. */
export const Outcomes = ({ end: { areas, reportedBy } }: { end: Told<'end'> }) => (
  <section aria-labelledby="outcome-title">
    <h2 id="outcome-title">Outcome</h2>
    {areas.length === 0 && <p>No area was begun.</p>}
    <ul className="outcomes">
      {areas.map(({ area, outcome, sentence, reasons }) => (
        <li key={area} className={`card outcome outcome-${outcome}`}>
          <h3>{AREA_WORDS[area]}</h3>
          <p className="outcome-word">
            <Shape name={OUTCOME_SHAPES[outcome]} />{' '}
            {outcome === 'ready' && reportedBy === 'athlete'
              ? 'Held, by your own report'
              : OUTCOME_WORDS[outcome]}
          </p>
          <p>{sentence}</p>
          {reasons.length > 0 && (
            <ul className="reasons">
              {reasons.map((reason) => (
                <li key={reason}>{reason}</li>
              ))}
            </ul>
          )}
        </li>
      ))}
    </ul>
  </section>
);

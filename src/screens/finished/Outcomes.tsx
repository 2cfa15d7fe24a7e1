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

type Stands = Told<'end'>['areas'][number];

/** What became of each area, the pattern of what failed, and every reason for it. */
export const Outcomes = ({ end }: { end: Told<'end'> }) => (
  <section aria-labelledby="outcome-title">
    <h2 id="outcome-title">Outcome</h2>
    {end.areas.length === 0 && <p>No area was begun.</p>}
    <ul className="outcomes">
      {end.areas.map((area) => (
        <OneArea key={area.area} end={end} stands={area} />
      ))}
    </ul>
  </section>
);

function OneArea({ end, stands }: { end: Told<'end'>; stands: Stands }) {
  const { area, outcome, sentence, reasons } = stands;
  const afterPain = wordsAfterPain(end, stands);
  const isOwnReport = outcome === 'ready' && end.reportedBy === 'athlete';
  const look = afterPain === null ? outcome : 'referred';
  return (
    <li className={`card outcome outcome-${look}`}>
      <h3>{AREA_WORDS[area]}</h3>
      <p className="outcome-word">
        <Shape name={OUTCOME_SHAPES[look]} />{' '}
        {afterPain ?? (isOwnReport ? 'Held, by your own report' : OUTCOME_WORDS[outcome])}
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
  );
}

/** What held, or is worked at, is not told as if pain had not stopped it (rules 12.12 and 13.14). */
function wordsAfterPain({ noHomework }: Told<'end'>, { area, outcome, waitsFor }: Stands) {
  if (outcome === 'ready' && waitsFor !== null) return 'Held, nothing loaded yet';
  const isStopped = noHomework.some((none) => none.area === area && none.rule === '13.14');
  return isStopped ? 'Stopped by pain' : null;
}

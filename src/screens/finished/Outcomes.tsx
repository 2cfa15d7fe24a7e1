import type { AreaOutcome } from '../../domain/areas';
import { Shape, type ShapeName } from '../Shape';
import type { Told } from '../view';
import type { Unseen } from '../../domain/reporting/unseen';
import type { CueBook } from '../../domain/script';
import { AREA_WORDS, OUTCOME_WORDS, SIDE_WORDS, titled, nameOf } from '../words';

const OUTCOME_SHAPES: Record<AreaOutcome, ShapeName> = {
  ready: 'held',
  working: 'short',
  referred: 'pain',
  unfinished: 'not-tested',
};

type Stands = Told<'end'>['areas'][number];

/** What became of each area, the pattern of what failed, and every reason for it. */
interface OutcomesProps {
  book: CueBook;
  end: Told<'end'>;
  /** Held by a correction alone. */
  unseen: Unseen[];
}

export const Outcomes = ({ book, end, unseen }: OutcomesProps) => (
  <section aria-labelledby="outcome-title">
    <h2 id="outcome-title">Outcome</h2>
    {end.areas.length === 0 && <p>No area was begun.</p>}
    <ul className="outcomes">
      {end.areas.map((area) => (
        <OneArea
          key={area.area}
          end={end}
          stands={area}
          again={unseen
            .filter(({ check }) => book.checks[check]?.area === area.area)
            .map((one) => againWords(book, one))}
        />
      ))}
    </ul>
  </section>
);

/** Reasons that are read at once; the others are folded. */
const SHOWN = 2;

interface OneAreaProps {
  end: Told<'end'>;
  stands: Stands;
  /** What has to be tested again since a correction. */
  again: string[];
}

function OneArea({ end, stands, again }: OneAreaProps) {
  const { area, outcome, sentence } = stands;
  const reasons = [...again, ...stands.reasons];
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
      <Reasons reasons={reasons.slice(0, SHOWN)} />
      {reasons.length > SHOWN && (
        <details>
          <summary>
            {reasons.length - SHOWN} more about the {AREA_WORDS[area].toLowerCase()}
          </summary>
          <Reasons reasons={reasons.slice(SHOWN)} />
        </details>
      )}
    </li>
  );
}

const Reasons = ({ reasons }: { reasons: string[] }) =>
  reasons.length > 0 && (
    <ul className="reasons">
      {reasons.map((reason) => (
        <li key={reason}>{reason}</li>
      ))}
    </ul>
  );

/** Rule 14.4. */
function againWords(book: CueBook, { check, side }: Unseen): string {
  const where = side === null ? '' : `, ${SIDE_WORDS[side].toLowerCase()}`;
  return `${titled(nameOf(book, check))}${where}: held by a correction alone. Test it again.`;
}

/** What held, or is worked at, is not told as if pain had not stopped it (rules 12.12 and 13.14). */
function wordsAfterPain({ noHomework }: Told<'end'>, { area, outcome, waitsFor }: Stands) {
  if (outcome === 'ready' && waitsFor !== null) return 'Held, nothing loaded yet';
  const isStopped = noHomework.some((none) => none.area === area && none.rule === '13.14');
  return isStopped ? 'Stopped by pain' : null;
}

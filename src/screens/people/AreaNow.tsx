import type { Area, AreaOutcome } from '../../domain/areas';
import type { OpenArea } from '../../domain/people/openFor';
import { Shape, type ShapeName } from '../Shape';
import { AREA_WORDS, OUTCOME_WORDS } from '../words';

const SHAPES: Record<AreaOutcome, ShapeName> = {
  ready: 'held',
  working: 'short',
  referred: 'pain',
  unfinished: 'not-tested',
};

/** How an area stands now, by shape and word; `open` is null where it was never tested. */
export function AreaNow({ area, open }: { area: Area; open: OpenArea | null }) {
  const look = open === null ? null : open.waits ? 'referred' : open.outcome;
  return (
    <span className={`area-now ${look === null ? '' : `outcome-${look}`}`}>
      <Shape name={look === null ? 'not-tested' : SHAPES[look]} />{' '}
      <span>
        {AREA_WORDS[area]}: {stands(open)}
      </span>
    </span>
  );
}

function stands(open: OpenArea | null): string {
  if (open === null) return 'not tested yet';
  if (open.waits) return 'a professional decides';
  const word = OUTCOME_WORDS[open.outcome].toLowerCase();
  return open.isDue ? `${word}, due again` : word;
}

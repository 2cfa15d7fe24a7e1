import { AREAS, type Area } from '../../domain/areas';
import type { Open, OpenArea } from '../../domain/people/openFor';
import type { CueBook } from '../../domain/script';
import { dateInWords } from '../dates';
import { AreaNow } from '../people/AreaNow';
import { nameOf } from '../words';

/** What is open now, area by area, with why and when it is due again. */
export const OpenNow = ({ book, open }: { book: CueBook; open: Open }) => (
  <section className="card" aria-labelledby="open-title">
    <h2 id="open-title">Open now</h2>
    <ul className="open-now">
      {AREAS.map((area) => (
        <li key={area}>
          <p className="stands">
            <AreaNow area={area} open={open[area]} />
          </p>
          <p className="detail">{whyOf(book, area, open[area])}</p>
        </li>
      ))}
    </ul>
  </section>
);

function whyOf(book: CueBook, area: Area, open: OpenArea | null): string {
  if (open === null) return 'No session has come to an outcome for it.';
  const on = `Found on ${dateInWords(open.on)}.`;
  if (open.waits)
    return `${on} After pain or a warning sign a licensed professional decides what comes next; no date is named.`;
  const drill = book.ladders[area]?.rungs[(open.rung ?? 0) - 1]?.drill;
  const at =
    open.outcome !== 'working'
      ? ''
      : drill === undefined
        ? ' No rung held yet.'
        : ` Last held: the ${nameOf(book, drill)}.`;
  const due = open.dueOn === null ? '' : ` ${dueWords(open, open.dueOn)}`;
  return `${on}${at}${due}`;
}

const dueWords = ({ isDue }: OpenArea, dueOn: string): string =>
  isDue ? `Due again since ${dateInWords(dueOn)}.` : `Due again on ${dateInWords(dueOn)}.`;

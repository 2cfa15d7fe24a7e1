import type { Deed, Moment } from '../../domain/reporting/moments';
import type { CueBook } from '../../domain/script';
import { clockOf } from '../dates';
import { Shape } from '../Shape';
import { AREA_WORDS, nameOf, titleOf } from '../words';

/** What was heard and decided, in its order, with the reason of each decision. */
export const Timeline = ({ book, moments }: { book: CueBook; moments: Moment[] }) => (
  <section className="card" aria-labelledby="timeline-title">
    <h2 id="timeline-title">What was heard and decided</h2>
    {moments.length === 0 ? (
      <p>Nothing was heard, and nothing had to be decided.</p>
    ) : (
      <details>
        <summary>All {moments.length}, in their order</summary>
        <ol className="timeline">
          {moments.map((moment) => (
            <li key={moment.id} className={`moment moment-${moment.type}`}>
              <span className="at">{clockOf(moment.atSeconds)}</span>
              <OneMoment book={book} moment={moment} />
            </li>
          ))}
        </ol>
      </details>
    )}
  </section>
);

function OneMoment({ book, moment }: { book: CueBook; moment: Moment }) {
  switch (moment.type) {
    case 'heard':
      return (
        <div>
          <p className="said">
            <Shape name={moment.text === '' ? 'both' : 'ear'} />{' '}
            {moment.text === '' ? (moment.understood ?? 'By hand') : `“${moment.text}”`}
          </p>
          <p className="detail">
            {titleOf(book, moment.prompt)}: {takenAs(moment)}
          </p>
        </div>
      );
    case 'decided':
      return (
        <div>
          <p className="because">{moment.because}</p>
          <p className="detail">{decidedHow(book, moment)}</p>
        </div>
      );
    case 'deed':
      return (
        <div>
          <p className="said">
            <Shape name={moment.deed === 'red-flag' ? 'pain' : 'notice'} />{' '}
            {DEED_WORDS[moment.deed]}
          </p>
          {moment.text !== '' && <p className="detail">Heard: “{moment.text}”</p>}
        </div>
      );
  }
}

const DEED_WORDS: Record<Deed, string> = {
  undone: 'Taken back',
  halted: 'Stop',
  paused: 'Pause',
  resumed: 'On again',
  'red-flag': 'A warning sign',
  overrule: 'The coach decided otherwise',
  words: 'More or fewer words',
};

type Heard = Extract<Moment, { type: 'heard' }>;

function takenAs({ text, verdict, understood, isTakenBack }: Heard): string {
  if (verdict === 'ignore' || understood === null) return 'not taken as an answer';
  const how = text === '' ? 'answered by hand' : `understood as ${understood}`;
  const asked = verdict === 'confirm' ? ', and asked back' : '';
  return `${how}${asked}${isTakenBack ? ', taken back later' : ''}`;
}

function decidedHow(
  book: CueBook,
  { area, to, rule, by }: Extract<Moment, { type: 'decided' }>,
): string {
  const where = area === null ? 'Decided' : `Decided for ${AREA_WORDS[area].toLowerCase()}`;
  const next = to === null ? '' : `, on to ${nameOf(book, to)}`;
  return `${where}${next}, rule ${rule}${by === 'coach' ? ', by the coach' : ''}`;
}

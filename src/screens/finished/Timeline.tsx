import type { ReactNode } from 'react';
import type { CorrectedTo, Deed, Moment } from '../../domain/reporting/moments';
import type { CueBook } from '../../domain/script';
import { clockOf, dateInWords } from '../dates';
import { Shape } from '../Shape';
import { AREA_WORDS, nameOf, OUTCOME_WORDS, titleOf } from '../words';
import { saidWords } from './saidWords';

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
              <span className="at">{isAfter(moment) ? 'After' : clockOf(moment.atSeconds)}</span>
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
            <Struck is={moment.corrected !== undefined}>
              {moment.text === '' ? (moment.understood ?? 'By hand') : `“${moment.text}”`}
            </Struck>
          </p>
          <p className="detail">
            {titleOf(book, moment.prompt)}: {takenAs(moment)}
          </p>
          <CorrectedLater book={book} corrected={moment.corrected} />
        </div>
      );
    case 'decided':
      return (
        <div>
          <p className="because">{moment.because}</p>
          <p className="detail">{decidedHow(book, moment)}</p>
        </div>
      );
    case 'corrected':
      return (
        <div>
          <p className="said">
            <Shape name="notice" />{' '}
            <Struck is={moment.corrected !== undefined}>
              {titleOf(book, moment.prompt)}: {saidWords(book, moment.to)}
            </Struck>
          </p>
          <p className="detail">Corrected by hand on {dateInWords(moment.on)}</p>
          <CorrectedLater book={book} corrected={moment.corrected} />
        </div>
      );
    case 'stands':
      return (
        <div>
          <p className="because">{standsNow(moment)}</p>
          <p className="detail">Worked out anew from what was corrected</p>
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

const isAfter = ({ type }: Moment): boolean => type === 'corrected' || type === 'stands';

const Struck = ({ is, children }: { is: boolean; children: ReactNode }) =>
  is ? <s>{children}</s> : children;

const CorrectedLater = ({
  book,
  corrected = [],
}: {
  book: CueBook;
  corrected?: CorrectedTo[] | undefined;
}) =>
  corrected.map(({ to, on }) => (
    <p key={`${to.side} ${on}`} className="detail">
      Corrected to {saidWords(book, to)}, on {dateInWords(on)}
    </p>
  ));

/** "Hinge was ready to be taught, is working now." */
function standsNow({ area, before, now }: Extract<Moment, { type: 'stands' }>): string {
  const is = OUTCOME_WORDS[now].toLowerCase();
  return before === null
    ? `${AREA_WORDS[area]} is ${is} now.`
    : `${AREA_WORDS[area]} was ${OUTCOME_WORDS[before].toLowerCase()}, is ${is} now.`;
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

import { useEffect, useRef } from 'react';
import type { AreaOutcome } from '../../domain/areas';
import type { CueBook } from '../../domain/script';
import type { EndReason } from '../../domain/log';
import type { Seat } from '../seat';
import { Shape, type ShapeName } from '../Shape';
import { useSeat } from '../useSeat';
import { findingsAtEnd, type Found, type View } from '../view';
import { AREA_WORDS, liftOf, OUTCOME_WORDS, standingOf } from '../words';
import { Decisions } from './Decisions';
import { Findings } from './Findings';
import './finished.css';

const REASON_WORDS: Record<EndReason, { title: string; text: string }> = {
  completed: { title: 'Session done', text: 'Every step was taken.' },
  stopped: {
    title: 'Session ended',
    text: 'You ended it. What was found until then is kept.',
  },
  'red-flag': {
    title: 'Ended on a warning sign',
    text: 'No more work today. A licensed professional decides what comes next. Chest pain, fainting or trouble breathing that does not settle: call the emergency number now.',
  },
  'replies-ended': {
    title: 'The replies ended',
    text: 'A question stayed open. What was found until then is kept.',
  },
};

const OUTCOME_SHAPES: Record<AreaOutcome, ShapeName> = {
  ready: 'held',
  working: 'short',
  referred: 'pain',
  unfinished: 'not-tested',
};

/** After a session: the outcome of each area, what may be taught, the findings and the reasons. */
export function FinishedScreen({ seat }: { seat: Seat }) {
  const view = useSeat(seat, (state) => state.view);
  const book = useSeat(seat, (state) => state.book);
  const rehearsal = useSeat(seat, (state) => state.rehearsal);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const reason = view.end?.reason ?? 'stopped';
  const findings: Found[] = findingsAtEnd(view);
  return (
    <main className="page finished">
      <header className={`reason reason-${reason}`}>
        <h1 ref={heading} tabIndex={-1}>
          {reason === 'red-flag' && <Shape name="pain" />}
          {REASON_WORDS[reason].title}
        </h1>
        <p className="lead">{REASON_WORDS[reason].text}</p>
        {rehearsal && <p>This was a rehearsal: nobody was tested.</p>}
      </header>
      <Outcomes book={book} view={view} />
      <Lifts lifts={view.end?.liftsReady ?? []} />
      <Findings book={book} findings={findings} />
      <Decisions book={book} decisions={view.decisions} />
      <section className="card" aria-labelledby="reading-title">
        <h2 id="reading-title">How to read this</h2>
        <p>
          “Ready to be taught” means that these checks held today. It does not say that a lift
          cannot hurt. The ladders are coaching practice, and a coach may change them. This is not
          medical advice: a licensed professional decides about pain, injury, surgery, pregnancy,
          and heart or blood-pressure history.
        </p>
      </section>
      <button type="button" className="first" onClick={() => seat.leave()}>
        Back to the start
      </button>
    </main>
  );
}

const Outcomes = ({ book, view }: { book: CueBook; view: View }) => (
  <section aria-labelledby="outcome-title">
    <h2 id="outcome-title">Outcome</h2>
    {view.outcomes.length === 0 && <p>No area was begun.</p>}
    <ul className="outcomes">
      {view.outcomes.map((standing) => (
        <li key={standing.area} className={`card outcome outcome-${standing.outcome}`}>
          <h3>{AREA_WORDS[standing.area]}</h3>
          <p className="outcome-word">
            <Shape name={OUTCOME_SHAPES[standing.outcome]} /> {OUTCOME_WORDS[standing.outcome]}
          </p>
          <p>{standingOf(book, standing)}</p>
        </li>
      ))}
    </ul>
  </section>
);

const Lifts = ({ lifts }: { lifts: string[] }) => (
  <section className="card" aria-labelledby="lifts-title">
    <h2 id="lifts-title">Lifts that may be taught</h2>
    {lifts.length === 0 ? (
      <p>None yet from what was tested in this session.</p>
    ) : (
      <ul className="lifts">
        {lifts.map((lift) => (
          <li key={lift}>
            <Shape name="held" /> {liftOf(lift)}
          </li>
        ))}
      </ul>
    )}
  </section>
);

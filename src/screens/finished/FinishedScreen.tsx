import { useEffect, useRef } from 'react';
import type { EndReason } from '../../domain/log';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { Decisions } from './Decisions';
import { Findings } from './Findings';
import { HomeworkCard } from './HomeworkCard';
import { Lifts } from './Lifts';
import { Measured } from './Measured';
import { NextVisit } from './NextVisit';
import { Outcomes } from './Outcomes';
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

/** After a session: the outcomes with their reasons, lifts, homework, next date and cautions. */
export function FinishedScreen({ seat }: { seat: Seat }) {
  const end = useSeat(seat, (state) => state.view.end);
  const book = useSeat(seat, (state) => state.book);
  const rehearsal = useSeat(seat, (state) => state.rehearsal);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const reason = end?.reason ?? 'stopped';
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
      {end !== null && (
        <>
          <Outcomes end={end} />
          <Lifts book={book} end={end} />
          <HomeworkCard book={book} end={end} />
          <NextVisit visit={end.nextVisit} />
          <Measured book={book} measured={end.measured} />
          <Cautions cautions={end.cautions} />
          <Findings book={book} findings={end.findings} />
          <Decisions book={book} decisions={end.decisions} />
        </>
      )}
      <button type="button" className="first" onClick={() => seat.leave()}>
        Back to the start
      </button>
    </main>
  );
}

const Cautions = ({ cautions }: { cautions: string[] }) => (
  <section className="card" aria-labelledby="cautions-title">
    <h2 id="cautions-title">Cautions</h2>
    <ul className="cautions">
      {cautions.map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
      <li>The ladders are coaching practice, and a coach may change them.</li>
    </ul>
  </section>
);

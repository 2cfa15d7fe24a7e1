import type { CueBook } from '../../domain/script';
import type { VisitState } from './state';
import type { Told } from '../view';
import { Decisions } from './Decisions';
import { Findings } from './Findings';
import { HomeworkCard } from './HomeworkCard';
import { Lifts } from './Lifts';
import { Measured } from './Measured';
import { NextVisit } from './NextVisit';
import { Outcomes } from './Outcomes';
import { Since } from './Since';
import { Timeline } from './Timeline';

interface AfterProps {
  book: CueBook;
  end: Told<'end'>;
  /** What only the log tells: the timeline, and what changed since the visit before. */
  visit: VisitState | null;
}

/**
 * What a session came to: outcomes with their reasons, lifts, homework, next date, cautions, and
 * how it went. Until the log is read, decisions stand where the timeline will.
 */
export const After = ({ book, end, visit }: AfterProps) => (
  <>
    <Outcomes end={end} />
    {visit?.state === 'here' && visit.since !== null && <Since book={book} since={visit.since} />}
    <Lifts book={book} end={end} />
    <HomeworkCard book={book} end={end} />
    <NextVisit visit={end.nextVisit} />
    <Measured book={book} measured={end.measured} />
    <Cautions cautions={end.cautions} />
    <Findings book={book} findings={end.findings} />
    {visit?.state === 'here' ? (
      <Timeline book={book} moments={visit.moments} />
    ) : (
      <Decisions book={book} decisions={end.decisions} />
    )}
  </>
);

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

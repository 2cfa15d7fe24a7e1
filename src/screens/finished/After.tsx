import type { CueBook } from '../../domain/script';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import type { Told } from '../view';
import { CutOff } from './CutOff';
import { Decisions } from './Decisions';
import { Findings } from './Findings';
import { HomeworkCard } from './HomeworkCard';
import { Lifts } from './Lifts';
import { Measured } from './Measured';
import { NextVisit } from './NextVisit';
import { Notes } from './Notes';
import { Outcomes } from './Outcomes';
import { SaveSheet } from './SaveSheet';
import { Since } from './Since';
import type { VisitState } from './state';
import { Timeline } from './Timeline';

interface AfterProps {
  seat: Seat;
  book: CueBook;
  end: Told<'end'>;
  /** What only the log tells: the timeline, what changed since the visit before, the record. */
  visit: VisitState | null;
}

/**
 * What a session came to: first what a coach looks for beside the bar, then how it went, folded.
 * Until the log is read, decisions stand where the timeline will.
 */
export function After({ seat, book, end, visit }: AfterProps) {
  const read = visit?.state === 'here' ? visit : null;
  const record = read?.record ?? null;
  return (
    <>
      {end.reportedBy === 'athlete' && <Reported />}
      <Outcomes book={book} end={end} unseen={record?.unseen ?? []} />
      <NextVisit visit={end.nextVisit} />
      {read !== null && read.since !== null && <Since book={book} since={read.since} />}
      <Lifts book={book} end={end} />
      <HomeworkCard seat={seat} book={book} end={end} mayHandOver={record !== null} />
      <Cautions cautions={end.cautions} />
      {read !== null && record !== null && (
        <Notes seat={seat} session={read.head.session} notes={record.notes} />
      )}
      {read !== null && record !== null && (
        <SaveSheet key={read.head.session} seat={seat} isNamed={read.head.person !== null} />
      )}
      <Measured book={book} measured={end.measured} />
      {read !== null && record?.isCutOff === true && (
        <CutOff seat={seat} session={read.head.session} />
      )}
      <Findings
        book={book}
        findings={end.findings}
        isFlagged={end.reason === 'red-flag'}
        from={record && { seat, record }}
      />
      {read === null ? (
        <Decisions book={book} decisions={end.decisions} />
      ) : (
        <Timeline book={book} moments={read.moments} />
      )}
    </>
  );
}

/** Rule 12.13. */
const Reported = () => (
  <p className="reported">
    <Shape name="notice" /> Reported by the athlete: nobody else saw it, and it makes no lift
    teachable.
  </p>
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

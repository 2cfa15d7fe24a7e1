import { Findings } from '../finished/Findings';
import { REASON_WORDS } from '../finished/reasons';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { Done } from './Done';
import type { HomeworkStage } from './state';
import '../finished/finished.css';

type DoneStage = Extract<HomeworkStage, { at: 'done' }>;

/** Straight after a session of homework: what it came to, and back to the coach with it. */
export function Ended({ seat, stage: { end, homework } }: { seat: Seat; stage: DoneStage }) {
  const book = useSeat(seat, (state) => state.book);
  return (
    <>
      {end !== null && (
        <section className="card" aria-labelledby="ended-title">
          <h2 id="ended-title">What it came to</h2>
          <p>{REASON_WORDS[end.reason].text}</p>
          {end.areas.map(({ area, sentence }) => (
            <p key={area} lang={book.language}>
              {sentence}
            </p>
          ))}
        </section>
      )}
      <Done seat={seat} done={homework.done} isFirst />
      {end !== null && (
        <Findings
          book={book}
          findings={end.findings}
          from={null}
          isFlagged={end.reason === 'red-flag'}
        />
      )}
      <button type="button" onClick={() => seat.homework.leave()}>
        To the start
      </button>
    </>
  );
}

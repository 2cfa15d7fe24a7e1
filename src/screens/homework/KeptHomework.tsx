import { dateInWords } from '../dates';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { AREA_WORDS, nameOf } from '../words';

/** On the first screen: homework that this device keeps, and a link that waits. */
export function KeptHomework({ seat }: { seat: Seat }) {
  const kept = useSeat(seat, (state) => state.homework.kept);
  const waits = useSeat(seat, (state) => state.homework.waits);
  const book = useSeat(seat, (state) => state.book);
  if (kept.length === 0 && !waits) return null;
  return (
    <section className="card kept-homework" aria-labelledby="kept-title">
      <h2 id="kept-title">Homework</h2>
      {waits && (
        <>
          <p>
            <Shape name="notice" /> A link was opened while something else was under way.
          </p>
          <button type="button" className="first" onClick={() => seat.homework.openWaiting()}>
            Open the link
          </button>
        </>
      )}
      {kept.map(({ handover, today, done }) => {
        const tasks = today?.tasks ?? [];
        const what = tasks
          .map(({ area, drill }) => `${AREA_WORDS[area].toLowerCase()}, ${nameOf(book, drill)}`)
          .join('; ');
        const last = done.at(-1)?.startedAt;
        return (
          <div key={handover.id}>
            <p>
              Handed over on {dateInWords(handover.madeAt)}
              {what !== '' && `: ${what}`}.
              {last !== undefined && ` Done last on ${dateInWords(last)}.`}
            </p>
            <button type="button" onClick={() => seat.homework.openKept(handover.id)}>
              Open your homework of {dateInWords(handover.madeAt)}
            </button>
          </div>
        );
      })}
    </section>
  );
}

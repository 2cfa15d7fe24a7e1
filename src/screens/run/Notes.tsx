import type { CueBook } from '../../domain/script';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { isEnding, type View } from '../view';
import { subjectOf } from '../words';

/** Why this step was chosen, and what its script warns of. */
export function Notes({ seat }: { seat: Seat }) {
  const view = useSeat(seat, (state) => state.view);
  const book = useSeat(seat, (state) => state.book);
  return (
    <>
      <Because view={view} />
      <Caution book={book} view={view} />
    </>
  );
}

function Because({ view }: { view: View }) {
  const last = view.decisions.at(-1);
  const said = last?.because === view.cue?.text;
  if (last === undefined || said || view.phase !== 'cueing') return null;
  return (
    <p className="because">
      <span className="label">Why:</span> {last.because}
    </p>
  );
}

/** The script's own caution, while there is still time to heed it. */
function Caution({ book, view }: { book: CueBook; view: View }) {
  const subject = view.step === null ? null : subjectOf(book, view.step.prompt);
  const before = view.phase === 'cueing' || view.phase === 'settling';
  if (subject === null || !before || isEnding(view) || subject.caution === '') return null;
  return (
    <p className="caution">
      <Shape name="notice" /> {subject.caution}
    </p>
  );
}

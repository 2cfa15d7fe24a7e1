import type { Side } from '../../domain/areas';
import type { CueBook } from '../../domain/script';
import type { Seat } from '../seat';
import { Shape, type ShapeName } from '../Shape';
import { useNowSeconds, useSeat } from '../useSeat';
import { secondsLeft, type View } from '../view';
import { PHASE_WORDS, placeOf, SIDE_WORDS, subjectOf, titleOf } from '../words';
import { sayable } from './sayable';

/** The one thing now, to be read from three metres: name, side, and count or time left. */
export function Stage({ seat }: { seat: Seat }) {
  const view = useSeat(seat, (state) => state.view);
  const book = useSeat(seat, (state) => state.book);
  const { step } = view;
  return (
    <section className={`stage phase-${view.phase ?? 'none'}`} aria-label="Now">
      <p className="place">{step === null ? '' : placeOf(book, step)}</p>
      <h1>{headingOf(book, view)}</h1>
      {step?.side != null && <SideSign side={step.side} />}
      {view.phase !== null && <Figure seat={seat} view={view} />}
      {view.prompt === 'confirm' && (
        <p className="offer">
          <Shape name="question" /> {offerOf(view)}
        </p>
      )}
      <Because view={view} />
      <Caution book={book} view={view} />
      <Sayable book={book} view={view} />
    </section>
  );
}

function headingOf(book: CueBook, view: View): string {
  if (view.phase === 'halted' || isEndQuestion(view)) return 'Stopped';
  if (view.phase === 'paused') return 'Paused';
  if (view.prompt.startsWith('pain/')) return titleOf(book, view.prompt);
  return view.step === null ? 'Getting ready' : titleOf(book, view.step.prompt);
}

/** A yes or no that no offer is waiting for can only be about ending the session. */
const isEndQuestion = (view: View): boolean =>
  view.prompt === 'confirm' && view.phase !== 'confirming';

const offerOf = (view: View): string =>
  isEndQuestion(view) ? 'End the session?' : `Heard: ${view.offered ?? view.cue?.text ?? ''}?`;

const SideSign = ({ side }: { side: Side }) => (
  <p className="side">
    <Shape name={side} /> {SIDE_WORDS[side]}
  </p>
);

const PHASE_SHAPES: Partial<Record<NonNullable<View['phase']>, ShapeName>> = {
  cueing: 'voice',
  asking: 'voice',
  listening: 'ear',
  waiting: 'ear',
  confirming: 'question',
  halted: 'stop',
};

function Figure({ seat, view }: { seat: Seat; view: View }) {
  const nowSeconds = useNowSeconds(seat, view.endsAtSeconds !== null);
  const left = secondsLeft(view, nowSeconds);
  const { phase, phaseSeconds, count } = view;
  const shape = phase === null ? undefined : PHASE_SHAPES[phase];
  const counts = phase === 'repeating' && count !== null;
  const figure = counts ? count : left;
  return (
    <div className="figure">
      <p className="doing">
        {shape && <Shape name={shape} />} {phase === null ? '' : PHASE_WORDS[phase]}
      </p>
      {figure !== null && (
        <p className="number">
          {figure} <span className="unit">{counts ? 'rep' : 's left'}</span>
        </p>
      )}
      {left !== null && phaseSeconds !== null && phaseSeconds > 0 && (
        <div
          className="bar"
          aria-hidden="true"
          style={{ '--left': Math.min(1, left / phaseSeconds) } as React.CSSProperties}
        />
      )}
    </div>
  );
}

function Because({ view }: { view: View }) {
  const last = view.decisions.at(-1);
  if (last === undefined || view.prompt !== 'idle') return null;
  return (
    <p className="because">
      <span className="label">Why</span> {last.because}
    </p>
  );
}

/** The script's own caution, while there is still time to heed it. */
function Caution({ book, view }: { book: CueBook; view: View }) {
  const subject = view.step === null ? null : subjectOf(book, view.step.prompt);
  const before = view.phase === 'cueing' || view.phase === 'settling';
  if (subject === null || !before || subject.caution === '') return null;
  return (
    <p className="caution">
      <Shape name="notice" /> {subject.caution}
    </p>
  );
}

const Sayable = ({ book, view }: { book: CueBook; view: View }) => (
  <div className="sayable">
    <p className="label" id="sayable">
      You can say
    </p>
    <ul aria-labelledby="sayable">
      {sayable(book, view).map((words) => (
        <li key={words}>{words}</li>
      ))}
    </ul>
  </div>
);

import type { CSSProperties } from 'react';
import type { Side } from '../../domain/areas';
import type { CueBook } from '../../domain/script';
import type { Phase } from '../../ports';
import type { Seat } from '../seat';
import { Shape, type ShapeName } from '../Shape';
import { Level } from './Level';
import { ToneSign } from './ToneSign';
import { useNowSeconds, useSeat } from '../useSeat';
import { isEnding, secondsLeft, type View } from '../view';
import {
  AREA_WORDS,
  OUTCOME_WORDS,
  PHASE_WORDS,
  placeOf,
  repsOf,
  SIDE_WORDS,
  titleOf,
} from '../words';
import { sayable } from './sayable';

/** The one thing now, to be read from three metres: name, side, and count or time left. */
export function Stage({ seat }: { seat: Seat }) {
  const view = useSeat(seat, (state) => state.view);
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const book = useSeat(seat, (state) => state.book);
  const silent = useSeat(seat, (state) => state.voice === 'none');
  const callWord = useSeat(seat, (state) => (state.rehearsal ? null : state.coach.callWord));
  const isHomework = useSeat(seat, (state) => state.isHomework);
  const side = isAside(view) ? null : (view.step?.side ?? null);
  return (
    <section className="stage" aria-label="Now">
      <p className="place">
        {view.step === null || view.outcome !== null ? '' : placeOf(book, view.step)}
      </p>
      <h1>{headingOf(book, view)}</h1>
      <div className="doing-row">
        {side !== null && <SideSign side={side} />}
        <Doing book={book} view={view} />
        <ToneSign seat={seat} />
      </div>
      <Figure seat={seat} book={book} view={view} />
      <Level seat={seat} view={view} />
      {view.prompt === 'confirm' && (
        <p className="offer">
          <Shape name="question" /> {offerOf(view)}
        </p>
      )}
      <Cue view={view} lang={book.language} silent={silent} />
      {isHeard && <Sayable {...{ book, view, callWord, isHomework }} />}
    </section>
  );
}

/** A yes or no that no offer is waiting for can only be about ending the session. */
const asksEnd = (view: View): boolean =>
  view.halted || (view.prompt === 'confirm' && view.phase !== 'confirming');

/** Something other than the step's own work or question has the floor. */
const isAside = (view: View): boolean =>
  asksEnd(view) ||
  isEnding(view) ||
  view.phase === 'paused' ||
  view.outcome !== null ||
  view.prompt.startsWith('pain/');

function headingOf(book: CueBook, view: View): string {
  if (asksEnd(view)) return 'Stopped';
  if (isEnding(view)) return 'The session ends';
  if (view.phase === 'paused') return 'Paused';
  if (view.prompt.startsWith('pain/')) return titleOf(book, view.prompt);
  if (view.outcome !== null)
    return `${AREA_WORDS[view.outcome.area]}: ${OUTCOME_WORDS[view.outcome.outcome].toLowerCase()}`;
  return view.step === null ? 'Getting ready' : titleOf(book, view.step.prompt);
}

/** What a phone as a level offers nobody has said: its own words are shown. */
function offerOf(view: View): string {
  if (asksEnd(view)) return 'End the session?';
  return view.offered === null ? (view.cue?.text ?? '') : `Heard: ${view.offered}?`;
}

const SideSign = ({ side }: { side: Side }) => (
  <p className="side">
    <Shape name={side} /> {SIDE_WORDS[side]}
  </p>
);

const PHASE_SHAPES: Partial<Record<Phase, ShapeName>> = {
  cueing: 'voice',
  asking: 'voice',
  listening: 'ear',
  waiting: 'ear',
  confirming: 'question',
};

/** What is going on, in a word; while something else has the floor, what it interrupted. */
function Doing({ book, view }: { book: CueBook; view: View }) {
  const { phase, step } = view;
  if (phase === null || phase === 'halted') return null;
  if (phase === 'paused') {
    return step === null ? null : <p className="doing">{titleOf(book, step.prompt)}</p>;
  }
  const shape = PHASE_SHAPES[phase];
  return (
    <p className="doing">
      {shape !== undefined && <Shape name={shape} />} {PHASE_WORDS[phase]}
    </p>
  );
}

/** The large number: the count that the voice keeps, else the seconds that are left. */
function Figure({ seat, book, view }: { seat: Seat; book: CueBook; view: View }) {
  const nowSeconds = useNowSeconds(seat, view.endsAtSeconds !== null);
  const left = secondsLeft(view, nowSeconds);
  const { phase, phaseSeconds } = view;
  if (left === null || phaseSeconds === null || phaseSeconds <= 0) return null;
  const { number, unit } = counted(book, view) ?? { number: left, unit: 'seconds' };
  return (
    <div className={`figure phase-${phase ?? 'none'}`}>
      <p className="number">
        <span>{number}</span> <span className="unit">{unit}</span>
      </p>
      <div
        className="bar"
        aria-hidden="true"
        style={{ '--left': Math.min(1, left / phaseSeconds) } as CSSProperties}
      />
    </div>
  );
}

function counted(book: CueBook, view: View): { number: number; unit: string } | null {
  const { phase, phaseSeconds, count, rep, step } = view;
  if (phase === 'exhaling' && count !== null) {
    return { number: count, unit: `of ${phaseSeconds ?? count}` };
  }
  if (phase !== 'repeating' || rep === null) return null;
  const reps = step === null ? null : repsOf(book, step.prompt);
  return { number: rep, unit: reps === null ? 'reps' : `of ${reps} reps` };
}

const LONG_CUE_LETTERS = 60;

/**
 * The caption of what is being spoken, largest while words are all there is. The voice says it, so
 * a screen reader is not told again (it would talk over the cue) unless there is no voice.
 */
function Cue({ view, silent, lang }: { view: View; silent: boolean; lang: string }) {
  const text = view.cue?.text ?? '';
  const size =
    view.phase !== 'cueing' ? 'small' : text.length > LONG_CUE_LETTERS ? 'long' : 'large';
  return (
    <p lang={lang} className={`cue cue-${size}`} aria-live={silent ? 'polite' : 'off'}>
      {text}
    </p>
  );
}

interface SayableProps {
  book: CueBook;
  view: View;
  callWord: string | null;
  isHomework: boolean;
}

const Sayable = ({ book, view, callWord, isHomework }: SayableProps) => (
  <div className="sayable">
    <p className="label" id="sayable">
      You can say
      {callWord !== null && needsCallWord(view) && `, after “${callWord}”`}
    </p>
    <ul aria-labelledby="sayable">
      {sayable(book, view, isHomework).map((words) => (
        <li key={words} className={hasLargeTwin(view, words) ? 'has-twin' : ''}>
          {words}
        </li>
      ))}
    </ul>
  </div>
);

/** A button below says the same in large letters, or the sign of the side does. */
const hasLargeTwin = ({ prompt }: View, words: string): boolean =>
  /^(check|set)\//.test(prompt) && /^(left|right|held|short|pain|yes|no)$/.test(words);

/** What Sayso has just asked the coach about is answered without it. */
const needsCallWord = ({ prompt }: View): boolean =>
  prompt !== 'confirm' && !prompt.startsWith('pain/');

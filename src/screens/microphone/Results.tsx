import {
  comparedWith,
  isDistorted,
  isLostOverOwnVoice,
  roomOf,
  HEARD_WELL_DECIBELS,
  LOST_BELOW_DECIBELS,
  type MicrophoneMeasured,
  type Standing,
} from '../../domain/hearing/microphoneAdvice';
import type { MicrophoneResult } from '../../session/microphoneCheckMachine';
import { ROOM_WORDS } from '../microphoneWords';
import type { Seat } from '../seat';
import { Shape, type ShapeName } from '../Shape';
import { Replies } from './Replies';
import { SetCallWord } from './SetCallWord';
import type { MicrophoneRun } from './state';

const STANDING_WORDS: Record<Standing, string> = {
  well: 'It hears you well from there.',
  barely: 'It hears you from there, but not everything.',
  badly: 'It does not hear you well from there.',
  nothing: 'It did not hear you.',
};
/** Every reply was right this time. */
const ONLY_JUST = 'It hears you from there, but only just.';
const STANDING_SHAPES: Record<Standing, ShapeName> = {
  well: 'held',
  barely: 'short',
  badly: 'lost',
  nothing: 'notice',
};
const CHANGE_WORDS = {
  better: 'Better than before.',
  same: 'The same as before.',
  worse: 'Not as good as before.',
};

/** How well it heard, what to do about it with each reason, and what was measured. */
export function Results({
  seat,
  result,
  before,
}: {
  seat: Seat;
  result: NonNullable<MicrophoneRun['result']>;
  before: MicrophoneResult | null;
}) {
  const { standing, advised, measured, replies } = result;
  const isWell = standing === 'well';
  const isAllRight = measured.right === measured.asked;
  const has = (what: string) => advised.some(({ to }) => to === what);
  return (
    <>
      <section className={`card standing standing-${standing}`} aria-labelledby="standing">
        <h2 id="standing">
          <Shape name={STANDING_SHAPES[standing]} />{' '}
          {standing === 'barely' && isAllRight ? ONLY_JUST : STANDING_WORDS[standing]}
        </h2>
        {before !== null && <p>{CHANGE_WORDS[comparedWith(before.measured, measured)]}</p>}
        <ol className="advice">
          {advised.map(({ to, words, because }) => (
            <li key={to}>
              {to !== 'begin' && <strong>{words}</strong>} <span>{because}</span>
            </li>
          ))}
        </ol>
      </section>
      <div className="pair">
        <button
          type="button"
          className={isWell ? 'first' : ''}
          onClick={() => seat.microphoneCheck.leave()}
        >
          To the start
        </button>
        <button
          type="button"
          className={isWell ? '' : 'first'}
          onClick={() => seat.microphoneCheck.again()}
        >
          Again
        </button>
        {has('check-voice') && (
          <button
            type="button"
            onClick={() => {
              seat.microphoneCheck.leave();
              seat.checkVoice();
            }}
          >
            Check my voice
          </button>
        )}
      </div>
      {has('set-call-word') && <SetCallWord seat={seat} />}
      <p className="hint">Or say “again” from where you stand, “stop” to leave.</p>
      <section className="card" aria-labelledby="measured">
        <h2 id="measured">What was measured</h2>
        <Replies heard={replies} />
        <Measured now={measured} before={before?.measured ?? null} />
        <p className="hint">
          No sound was kept. This device keeps the advice with its date, and nothing else.
        </p>
      </section>
    </>
  );
}

interface Row {
  what: string;
  of: (measured: MicrophoneMeasured) => string;
  shape: (measured: MicrophoneMeasured) => ShapeName;
}

const good = (isGood: boolean): ShapeName => (isGood ? 'held' : 'notice');
const tellsDecibels = (decibels: number) => `${Math.round(decibels)} dB`.replace('-', '−');

const ROWS: Row[] = [
  {
    what: 'Replies heard right',
    of: ({ right, asked }) => `${right} of ${asked}`,
    shape: ({ right, asked }) => good(right === asked),
  },
  {
    what: `Your voice above the room (${HEARD_WELL_DECIBELS} dB is heard well, below ${LOST_BELOW_DECIBELS} words are lost)`,
    of: ({ aboveNoiseDecibels: above }) => (above === null ? 'not found' : tellsDecibels(above)),
    shape: ({ aboveNoiseDecibels: above }) =>
      above === null || above < LOST_BELOW_DECIBELS
        ? 'lost'
        : above < HEARD_WELL_DECIBELS
          ? 'short'
          : 'held',
  },
  {
    what: 'The room (0 dB is the loudest there is)',
    of: ({ noiseDecibels }) =>
      noiseDecibels === null
        ? 'not measured'
        : `${ROOM_WORDS[roomOf(noiseDecibels)]}, ${tellsDecibels(noiseDecibels)}`,
    shape: ({ noiseDecibels }) => good(noiseDecibels !== null && roomOf(noiseDecibels) !== 'loud'),
  },
  {
    what: 'Distortion',
    of: (measured) => (isDistorted(measured) ? 'too loud, cut off' : 'none'),
    shape: (measured) => good(!isDistorted(measured)),
  },
  {
    what: 'A “stop” over Sayso’s own voice',
    of: (measured) => (isLostOverOwnVoice(measured) ? 'may be lost' : 'is heard'),
    shape: (measured) => good(!isLostOverOwnVoice(measured)),
  },
  {
    what: 'Recogniser that heard',
    of: ({ recogniser }) => (recogniser === 'strong' ? 'the better' : 'the small'),
    shape: ({ recogniser }) => good(recogniser === 'strong'),
  },
];

/** Each measure with its shape; the one before beside it. */
const Measured = ({
  now,
  before,
}: {
  now: MicrophoneMeasured;
  before: MicrophoneMeasured | null;
}) => (
  <table className="measured">
    <caption className="label">
      {before === null ? 'From where you stood' : 'From where you stood before, and now'}
    </caption>
    <thead>
      <tr>
        <th scope="col">Measure</th>
        {before !== null && <th scope="col">Before</th>}
        <th scope="col">Now</th>
      </tr>
    </thead>
    <tbody>
      {ROWS.map(({ what, of, shape }) => (
        <tr key={what}>
          <th scope="row">{what}</th>
          {before !== null && <td>{of(before)}</td>}
          <td>
            <Shape name={shape(now)} /> {of(now)}
          </td>
        </tr>
      ))}
    </tbody>
  </table>
);

import { useEffect } from 'react';
import { LevelMeter } from '../LevelMeter';
import type { Seat, VoiceCheckState } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { MICROPHONE_WORDS } from '../microphoneWords';
import { Results } from './Results';
import './voiceCheck.css';

/** Reading aloud, hands free: the line in large type, and what became of the one before. */
export default function VoiceCheckScreen({ seat }: { seat: Seat }) {
  const check = useSeat(seat, (state) => state.voiceCheck);
  const isFinished = check?.stage === 'finished';
  const heading = useFocusOnArrival<HTMLHeadingElement>(isFinished);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'Escape') return;
      if (isFinished) seat.leave();
      else seat.steerVoiceCheck('stop');
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [seat, isFinished]);
  if (check === null) return null;
  return (
    <main className="page voice-check">
      <h1 ref={heading} tabIndex={-1}>
        {isFinished ? 'How you are heard' : 'Check my voice'}
      </h1>
      {isFinished ? (
        <Results seat={seat} results={check.results} />
      ) : (
        <Reading seat={seat} check={check} />
      )}
    </main>
  );
}

function Reading({ seat, check }: { seat: Seat; check: VoiceCheckState }) {
  const reads = check.stage === 'reading' || check.stage === 'introducing';
  return (
    <>
      {reads ? <Line seat={seat} check={check} /> : <Waiting seat={seat} check={check} />}
      <div className="pair">
        {reads && (
          <button type="button" className="first" onClick={() => seat.steerVoiceCheck('skip')}>
            Skip this one
          </button>
        )}
        <button
          type="button"
          onClick={() => (check.done > 0 ? seat.steerVoiceCheck('stop') : seat.leave())}
        >
          {check.done > 0 ? 'End the check' : 'Back to the start'}
        </button>
      </div>
    </>
  );
}

function Line({ seat, check }: { seat: Seat; check: VoiceCheckState }) {
  const { line, done, of, stage, isHeard } = check;
  const hint = isHeard
    ? 'Heard.'
    : stage === 'introducing'
      ? 'Read each line aloud, as you would beside the rack. Say “skip” to leave one out.'
      : line?.isAgain === true
        ? line.takenFor === null
          ? 'Not heard. Once more, please.'
          : `Heard “${line.takenFor}”. Once more, please.`
        : line?.insteadOf != null
          ? `Other words for “${line.insteadOf}”.`
          : 'Read it aloud.';
  return (
    <section className="card line-to-read" aria-labelledby="line">
      <p className="quiet">
        <label>
          {done} of {of} <progress max={of} value={done} />
        </label>
      </p>
      <div role="status">
        <p id="line" className="line">
          {line?.text ?? ''}
        </p>
        <p className="line-hint">
          <Shape name={line?.isAgain === true && !isHeard ? 'notice' : 'ear'} /> {hint}
        </p>
      </div>
      <LevelMeter seat={seat} />
    </section>
  );
}

/** Everything that can stand in the way, and what to do about it. */
function Waiting({ seat, check: { stage } }: { seat: Seat; check: VoiceCheckState }) {
  const microphone = useSeat(seat, (state) => state.microphone);
  const ear = useSeat(seat, (state) => state.ear);
  if (stage === 'failed' || ear.state === 'failed')
    return (
      <section className="card" role="alert">
        <p className="trouble">
          <Shape name="notice" /> The recogniser could not load, so there is nothing to check yet.
          Look at the connection, then reload the page.
        </p>
      </section>
    );
  if (stage === 'loading')
    return (
      <section className="card" role="status">
        <p>
          <Shape name="ear" />{' '}
          {microphone.state === 'asking'
            ? MICROPHONE_WORDS.asking
            : 'The recogniser is loading. The first line comes by itself.'}
        </p>
        {ear.progress !== null && (
          <progress max={1} value={ear.progress} aria-label="Loading the recogniser" />
        )}
      </section>
    );
  return (
    <section className="card">
      <p className="trouble" role="alert">
        <Shape name="notice" />{' '}
        {stage === 'nobodyHeard'
          ? NOBODY_WORDS[microphone.hearsWell]
          : MICROPHONE_WORDS[microphone.state]}
      </p>
      {microphone.state === 'hears' && <LevelMeter seat={seat} />}
      <button type="button" className="first" onClick={() => seat.steerVoiceCheck('go-on')}>
        {stage === 'nobodyHeard' ? 'Go on' : 'Try the microphone again'}
      </button>
    </section>
  );
}

const QUIET = 'Nobody is heard. Come nearer to the microphone, or speak up, then go on.';
const NOBODY_WORDS: Record<'unknown' | 'quiet' | 'good' | 'loud', string> = {
  unknown: QUIET,
  quiet: QUIET,
  good: 'No reply was heard. Read the line just as it stands, then go on.',
  loud: 'It is too loud here to check a voice. Pause the music or use earbuds, then go on.',
};

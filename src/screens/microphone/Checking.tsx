import { LevelMeter } from '../LevelMeter';
import { MICROPHONE_WORDS } from '../microphoneWords';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { Replies, REPLY_SHAPES, REPLY_WORDS } from './Replies';
import type { MicrophoneRun } from './state';

/** What is to be done now, to be read from some steps away, and what was heard so far. */
export function Checking({ seat, run }: { seat: Seat; run: MicrophoneRun }) {
  const { stage, heard } = run;
  return (
    <>
      <section className="card say-now" aria-label="Now">
        <p className="quiet">
          {heard.length} of {run.of === 0 ? 3 : run.of}
        </p>
        {/* A screen reader would talk over Sayso's own voice, which says the same. */}
        <div {...(run.isMute || stage === 'loading' ? { role: 'status' } : {})}>
          {stage === 'loading' ? <Loading seat={seat} /> : <Now run={run} />}
        </div>
        {stage === 'loading' ? <LoadingBar seat={seat} /> : <LevelMeter seat={seat} />}
      </section>
      {run.isMute && (
        <p className="trouble">
          <Shape name="notice" /> No voice was found: read each line here.
        </p>
      )}
      {run.wasHidden && (
        <p className="trouble">
          <Shape name="notice" /> The check waited while this page was out of sight.
        </p>
      )}
      <Replies heard={heard} />
      <div className="pair">
        {stage === 'walking' && (
          <button type="button" className="first" onClick={() => seat.microphoneCheck.goOn()}>
            I am there
          </button>
        )}
        <button type="button" onClick={() => seat.microphoneCheck.leave()}>
          <Shape name="stop" /> End the check
        </button>
      </div>
    </>
  );
}

function Now({ run: { stage, line, isAgain, heard } }: { run: MicrophoneRun }) {
  const last = heard.at(-1);
  if (stage === 'telling' && last !== undefined)
    return (
      <>
        <p className={`say-line reply-${last.how}`}>
          <Shape name={REPLY_SHAPES[last.how]} /> {last.heard ?? 'Nothing'}
        </p>
        <p className="say-hint">{REPLY_WORDS[last.how]}</p>
      </>
    );
  const [big, hint] =
    stage === 'introducing' || stage === 'walking'
      ? ['Stand where you will work.', 'From here on everything is asked aloud. “Stop” ends it.']
      : stage === 'room'
        ? ['Quiet for a moment.', 'Sayso listens to the room.']
        : [
            `“${line ?? ''}”`,
            stage === 'listening'
              ? 'Say it now.'
              : isAgain
                ? 'Not heard. Say it once more, after the tone.'
                : 'Say it after the tone.',
          ];
  return (
    <>
      <p className="say-line">{big}</p>
      <p className="say-hint">
        <Shape name={stage === 'listening' || stage === 'room' ? 'ear' : 'voice'} /> {hint}
      </p>
    </>
  );
}

function Loading({ seat }: { seat: Seat }) {
  const isAsking = useSeat(seat, (state) => state.microphone.state === 'asking');
  return (
    <p className="say-hint">
      <Shape name="ear" />{' '}
      {isAsking
        ? MICROPHONE_WORDS.asking
        : 'The recogniser is loading. The check begins by itself.'}
    </p>
  );
}

function LoadingBar({ seat }: { seat: Seat }) {
  const progress = useSeat(seat, (state) => state.ear.progress);
  return (
    <progress
      max={1}
      {...(progress !== null && { value: progress })}
      aria-label="Loading the recogniser"
    />
  );
}

import { LevelMeter } from '../LevelMeter';
import { MICROPHONE_WORDS } from '../microphoneWords';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import type { MicrophoneRun } from './state';

/** What keeps the check from going on, and what to do about it. */
export function InTheWay({ seat, stage }: { seat: Seat; stage: MicrophoneRun['stage'] }) {
  const microphone = useSeat(seat, (state) => state.microphone.state);
  const isEarGone = useSeat(seat, (state) => state.ear.state === 'failed');
  const isFailed = stage === 'failed' || (isEarGone && microphone === 'hears');
  return (
    <section className="card">
      <p className="trouble" role="alert">
        <Shape name="notice" />{' '}
        {isFailed
          ? 'The recogniser could not load, so nothing can be checked yet. Look at the connection, then reload the page. Touch and keys do everything meanwhile.'
          : stage === 'hidden'
            ? 'The check waits while this page is out of sight.'
            : microphone === 'hears'
              ? 'The microphone was gone for a moment.'
              : MICROPHONE_WORDS[microphone]}
      </p>
      {microphone === 'hears' && !isFailed && <LevelMeter seat={seat} />}
      <div className="pair">
        {!isFailed && stage !== 'hidden' && (
          <button type="button" className="first" onClick={() => seat.microphoneCheck.goOn()}>
            Try the microphone again
          </button>
        )}
        <button type="button" onClick={() => seat.microphoneCheck.leave()}>
          Back to the start
        </button>
      </div>
    </section>
  );
}

import { useEffect } from 'react';
import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { Checking } from './Checking';
import { InTheWay } from './InTheWay';
import { Results } from './Results';
import '../gate/gate.css';
import './microphone.css';

/** Whether replies are heard from where people will stand: hands free, to be read from there. */
export default function MicrophoneScreen({ seat }: { seat: Seat }) {
  const run = useSeat(seat, (state) => state.microphoneCheck?.run ?? null);
  const microphone = useSeat(seat, (state) => state.microphone.state);
  const isFinished = run?.stage === 'finished' && run.result !== null;
  const heading = useFocusOnArrival<HTMLHeadingElement>(isFinished);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      // What is typed into the form of the call word is no answer.
      if (event.target instanceof Element && event.target.matches('input')) return;
      if (event.key === 'Escape') seat.microphoneCheck.leave();
      else seat.key(event);
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [seat]);
  if (run === null) return null;
  const isDeaf = !['unknown', 'asking', 'hears'].includes(microphone);
  const isInTheWay =
    ['deaf', 'failed', 'hidden'].includes(run.stage) || (run.stage === 'loading' && isDeaf);
  return (
    <main className="page microphone-check" lang="en">
      <h1 ref={heading} tabIndex={-1}>
        {isFinished ? 'From where you stand' : 'The microphone'}
      </h1>
      {isInTheWay ? (
        <InTheWay seat={seat} stage={run.stage} />
      ) : isFinished && run.result !== null ? (
        <Results seat={seat} result={run.result} before={run.before} />
      ) : (
        <Checking seat={seat} run={run} />
      )}
    </main>
  );
}

import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';

/** Whether replies are heard from where people will stand. */
export default function MicrophoneScreen({ seat }: { seat: Seat }) {
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  return (
    <main className="page" lang="en">
      <button type="button" className="back" onClick={() => seat.microphoneCheck.leave()}>
        Back
      </button>
      <h1 ref={heading} tabIndex={-1}>
        The microphone
      </h1>
    </main>
  );
}

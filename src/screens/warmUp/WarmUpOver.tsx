import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import type { WarmUpState } from './state';

const HOW: Record<NonNullable<WarmUpState['ended']>, string> = {
  completed: 'All of it was done.',
  stopped: 'It was stopped before its end.',
  'red-flag': 'It ended on a warning sign. Get help now, as your local rules say.',
};

/** After a warm-up: how it ended. Nothing of it is kept. */
export function WarmUpOver({ seat }: { seat: Seat }) {
  const ended = useSeat(seat, (state) => state.warmUp?.ended ?? 'completed');
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  return (
    <main className="page warm-up" lang="en">
      <h1 ref={heading} tabIndex={-1}>
        The warm-up is over
      </h1>
      <p className="lead">
        {ended === 'red-flag' && <Shape name="pain" />} {HOW[ended]}
      </p>
      <div className="pair">
        <button type="button" className="first" onClick={() => seat.warmUp.leave()}>
          To the start
        </button>
        <button type="button" onClick={() => seat.warmUp.show()}>
          Another warm-up
        </button>
      </div>
    </main>
  );
}

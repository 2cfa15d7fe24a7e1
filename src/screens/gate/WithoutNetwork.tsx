import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { FETCHED_WORDS, NEW_VERSION_WORDS, OFFLINE_WORDS } from '../words';

/** Whether a session can do without network from here on, and whether a new version waits. */
export function WithoutNetwork({ seat }: { seat: Seat }) {
  const { state, what, progress, newVersion } = useSeat(seat, ({ offline }) => offline);
  return (
    <div className="offline">
      <p role="status">
        {state === 'fetching' && FETCHED_WORDS[what]}
        {state !== 'fetching' && state !== 'unknown' && (
          <>
            <Shape name={state === 'ready' ? 'held' : 'notice'} /> {OFFLINE_WORDS[state]}
          </>
        )}
      </p>
      {state === 'fetching' && (
        <progress aria-label="Kept for use without network" max={1} value={progress} />
      )}
      {newVersion !== null && (
        <p role="status">
          {NEW_VERSION_WORDS[newVersion]}{' '}
          <button type="button" onClick={() => seat.takeNewVersion()}>
            Take the new version
          </button>
        </p>
      )}
    </div>
  );
}

import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import type { WarmUpOffer } from './state';

/** Bytes of a second: 16 bits, 16,000 times. */
const BYTES_A_SECOND = 32_000;

/** The whole warm-up as one sound file, for a speaker without a phone. */
export function SaveSound({
  seat,
  chosen: { id, seconds },
  minutes,
  isDisabled,
}: {
  seat: Seat;
  chosen: WarmUpOffer;
  minutes: number | null;
  isDisabled: boolean;
}) {
  const share = useSeat(seat, (state) => state.warmUp?.sound ?? null);
  const megabytes = Math.ceil(((minutes === null ? seconds : minutes * 60) * BYTES_A_SECOND) / 1e6);
  return (
    <section className="card" aria-labelledby="sound-file-title">
      <h2 id="sound-file-title">For a speaker without a phone</h2>
      <p>
        One sound file (WAV, about {megabytes} MB) of all that is said, counted and signalled, by
        Sayso’s own voice. Music is not in it.
      </p>
      {share === null ? (
        <button
          type="button"
          disabled={isDisabled}
          onClick={() => void seat.warmUp.saveSound({ id, minutes })}
        >
          Save as a sound file
        </button>
      ) : (
        <>
          <progress max={1} value={share} aria-label="Of the sound file" />
          <button type="button" onClick={() => seat.warmUp.cancelSound()}>
            Do not save it: {Math.floor(share * 100)} % is made
          </button>
        </>
      )}
    </section>
  );
}

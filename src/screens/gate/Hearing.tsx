import { LevelMeter } from '../LevelMeter';
import { dateInWords } from '../dates';
import { MICROPHONE_WORDS, ROOM_WORDS } from '../microphoneWords';
import type { Seat, SeatState } from '../seat';
import { Shape } from '../Shape';
import { SMALL_EAR_WORDS } from '../smallEar';
import { useSeat } from '../useSeat';

const HEARS_WELL_WORDS: Record<SeatState['microphone']['hearsWell'], string> = {
  unknown: 'Say a few words.',
  quiet: 'Too quiet: come nearer or speak up.',
  good: 'Hears you well.',
  loud: 'Distorted: talk closer rather than louder.',
};

/** Whether the ear and the voice are there, and how well the room is heard. */
export function Hearing({ seat }: { seat: Seat }) {
  const microphone = useSeat(seat, (state) => state.microphone.state);
  const hearsWell = useSeat(seat, (state) => state.microphone.hearsWell);
  const hearsOverSound = useSeat(seat, (state) => state.microphone.hearsOverSound ?? true);
  const ear = useSeat(seat, (state) => state.ear);
  const room = useSeat(seat, (state) => state.microphoneCheck?.room ?? null);
  const last = useSeat(seat, (state) => state.microphoneCheck?.last ?? null);
  const voice = useSeat(seat, (state) => state.voice);
  const deaf = !['unknown', 'asking', 'hears'].includes(microphone);
  return (
    <section className="card hearing" aria-labelledby="hearing-title">
      <h2 id="hearing-title">Does it hear you?</h2>
      <div role="status" className="hearing-words">
        <p className={deaf ? 'trouble' : ''}>
          <Shape name={deaf ? 'notice' : 'ear'} /> {MICROPHONE_WORDS[microphone]}
        </p>
        {microphone === 'hears' && !hearsOverSound && (
          <p className="trouble">
            <Shape name="notice" /> This microphone cannot hear “stop” over Sayso’s voice. While it
            speaks, stop it by the screen, a key or the headset.
          </p>
        )}
        {ear.state === 'failed' && microphone !== 'failed' && (
          <p className="trouble">
            <Shape name="notice" /> The recogniser could not load, so replies come by touch and
            keys. Check the connection and reload to try again.
          </p>
        )}
        {ear.why && (
          <p className="trouble">
            <Shape name="notice" /> {SMALL_EAR_WORDS[ear.why]}
          </p>
        )}
        {voice === 'none' && (
          <p className="trouble">
            <Shape name="notice" /> No voice was found: every cue is shown here in large type.
          </p>
        )}
      </div>
      {microphone === 'hears' ? (
        <div className="hears">
          <LevelMeter seat={seat} />
          <p role="status" className={`hears-well hears-${hearsWell}`}>
            <Shape
              name={hearsWell === 'good' ? 'held' : hearsWell === 'unknown' ? 'ear' : 'notice'}
            />{' '}
            {HEARS_WELL_WORDS[hearsWell]}
          </p>
          {room !== null && (
            <p className={room === 'loud' ? 'trouble' : ''}>
              <Shape name={room === 'quiet' ? 'held' : room === 'busy' ? 'short' : 'notice'} /> The
              room by itself: {ROOM_WORDS[room]}.
            </p>
          )}
        </div>
      ) : (
        microphone !== 'asking' &&
        microphone !== 'failed' && (
          <button type="button" onClick={() => seat.tryMicrophone()}>
            {deaf ? 'Try the microphone again' : 'Try the microphone'}
          </button>
        )
      )}
      {ear.state !== 'failed' && microphone !== 'asking' && (
        <button type="button" onClick={() => seat.microphoneCheck.begin()}>
          Check it from where you stand
        </button>
      )}
      {last !== null && (
        <p className="hint">
          {dateInWords(last.date)}: {last.words}
        </p>
      )}
      {ear.size === 'strong' && (
        <p>
          <Shape name="ear" /> The better of the two recognisers hears. It works on this device.
        </p>
      )}
      {ear.size === 'small' && ear.why === null && (
        <p className="loading">The small recogniser hears already; the better one is on its way.</p>
      )}
      {ear.state === 'loading' && <EarLoading progress={ear.progress} />}
    </section>
  );
}

const EarLoading = ({ progress }: { progress: number | null }) => (
  <p className="loading">
    <label>
      The recogniser is loading; you may begin meanwhile{' '}
      <progress max={1} {...(progress !== null && { value: progress })} />
    </label>
  </p>
);

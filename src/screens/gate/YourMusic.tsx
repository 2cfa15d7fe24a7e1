import { useId } from 'react';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';

/** Music of one's own in the background, or none. */
export function YourMusic({ seat }: { seat: Seat }) {
  const { name, trouble } = useSeat(seat, (state) => state.music);
  const field = useId();
  return (
    <section className="your-music" aria-labelledby={`${field}-title`}>
      <h3 id={`${field}-title`}>Music</h3>
      {name === null ? (
        <>
          <label htmlFor={field}>A sound file of this device, played over and over</label>
          <input
            id={field}
            type="file"
            accept="audio/*"
            onChange={({ target }) => {
              const [file] = target.files ?? [];
              if (file !== undefined) seat.playMusic(file);
            }}
          />
          <p>It goes quiet under every word and question, and stops at “stop”.</p>
        </>
      ) : (
        <>
          <p role="status">
            <Shape name="voice" /> Playing {name}
          </p>
          <button type="button" onClick={() => seat.removeMusic()}>
            No music
          </button>
        </>
      )}
      {trouble && (
        <p role="alert" className="trouble">
          <Shape name="notice" /> This browser cannot play that file: choose an MP3 or WAV file.
        </p>
      )}
    </section>
  );
}

import { useId } from 'react';
import type { Seat, VoicesState } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';

const QUALITY_WORDS: Record<VoicesState['device'][number]['quality'], string> = {
  good: 'clear',
  plain: 'plain',
  poor: 'hard to follow',
};

/** Whose voice says the cues: one of the device's, or the one that comes with Sayso. */
export function WhoSpeaks({ seat }: { seat: Seat }) {
  const { device, speaks, wordsPerMinute } = useSeat(seat, (state) => state.voices);
  const field = useId();
  const note = useId();
  return (
    <section className="who-speaks" aria-labelledby={`${field}-title`}>
      <h3 id={`${field}-title`}>Who speaks</h3>
      <label htmlFor={field}>Voice of the cues</label>
      <select
        id={field}
        value={speaks ?? 'sayso'}
        aria-describedby={note}
        onChange={(event) => seat.chooseVoice(event.target.value)}
      >
        {device.map(({ id, name, quality }) => (
          <option key={id} value={id}>
            {name} ({QUALITY_WORDS[quality]})
          </option>
        ))}
        <option value="sayso">Sayso’s own voice (the same on every device)</option>
      </select>
      <p id={note}>
        {speaks === 'sayso' || speaks === null
          ? 'Counts and cues come from one voice, with or without a network.'
          : 'Counts are always Sayso’s own voice, so that each falls on its beat.'}
        {wordsPerMinute !== null &&
          ` Left alone it speaks ${wordsPerMinute} words a minute; cues are brought to about 140.`}
      </p>
      <button type="button" onClick={() => seat.chooseVoice(speaks ?? 'sayso')}>
        <Shape name="voice" /> Hear it
      </button>
    </section>
  );
}

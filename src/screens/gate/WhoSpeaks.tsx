import { useId } from 'react';
import type { Seat, VoicesState } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';

const QUALITY_WORDS: Record<VoicesState['device'][number]['quality'], string> = {
  good: 'clear',
  plain: 'plain',
  poor: 'hard to follow',
};

/**
 * Whose voice says the cues: one of the device's, or the one that comes with Sayso, where that
 * speaks the language (`isShipped`).
 */
export function WhoSpeaks({ seat, isShipped }: { seat: Seat; isShipped: boolean }) {
  const { device, speaks, wordsPerMinute } = useSeat(seat, (state) => state.voices);
  const first = isShipped ? 'sayso' : (device[0]?.id ?? '');
  const field = useId();
  const note = useId();
  return (
    <section className="who-speaks" aria-labelledby={`${field}-title`}>
      <h3 id={`${field}-title`}>Who speaks</h3>
      <label htmlFor={field}>Voice of the cues</label>
      <select
        id={field}
        value={speaks ?? first}
        aria-describedby={note}
        onChange={(event) => seat.chooseVoice(event.target.value)}
      >
        {device.map(({ id, name, quality }) => (
          <option key={id} value={id}>
            {name} ({QUALITY_WORDS[quality]})
          </option>
        ))}
        {isShipped && <option value="sayso">Sayso’s own voice (the same on every device)</option>}
      </select>
      <p id={note}>
        {!isShipped || speaks === 'sayso' || speaks === null
          ? `Counts and cues come from one voice${isShipped ? ', with or without a network' : ''}.`
          : 'Counts are always Sayso’s own voice, so that each falls on its beat.'}
        {wordsPerMinute !== null &&
          ` Left alone it speaks ${wordsPerMinute} words a minute; cues are brought to about 140, for a group to 120.`}
      </p>
      <button type="button" onClick={() => seat.chooseVoice(speaks ?? first)}>
        <Shape name="voice" /> Hear it
      </button>
    </section>
  );
}

import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { WhoSpeaks } from './WhoSpeaks';
import { YourMusic } from './YourMusic';

/**
 * Voice and music, folded away: both are good as they are for most. `hasVoices`: the voices of the
 * device and the shipped one speak this language.
 */
export function Sound({ seat, hasVoices }: { seat: Seat; hasVoices: boolean }) {
  const { device, speaks } = useSeat(seat, (state) => state.voices);
  const music = useSeat(seat, (state) => state.music);
  const voice = device.find(({ id }) => id === speaks)?.name ?? 'Sayso’s own voice';
  return (
    <details className="card sound" open={music.trouble || undefined}>
      <summary>
        Voice and music{' '}
        <span className="not-here-count">
          {hasVoices && `${voice}, `}
          {music.name ?? 'no music'}
        </span>
      </summary>
      {hasVoices && <WhoSpeaks seat={seat} />}
      <YourMusic seat={seat} />
    </details>
  );
}

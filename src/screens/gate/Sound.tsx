import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { WORDS_NAMES } from '../words';
import { HowMuch } from './HowMuch';
import { WhoSpeaks } from './WhoSpeaks';
import { YourMusic } from './YourMusic';

/**
 * Voice, words and music, folded away: they are good as they are for most. `hasVoices`: the voices of the
 * device and the shipped one speak this language.
 */
export function Sound({ seat, hasVoices }: { seat: Seat; hasVoices: boolean }) {
  const { device, speaks } = useSeat(seat, (state) => state.voices);
  const music = useSeat(seat, (state) => state.music);
  const words = useSeat(seat, (state) => state.words);
  const voice = device.find(({ id }) => id === speaks)?.name ?? 'Sayso’s own voice';
  return (
    <details className="card sound" open={music.trouble || undefined}>
      <summary>
        Voice, words, music{' '}
        <span className="not-here-count">
          {hasVoices && `${voice}, `}
          {`${WORDS_NAMES[words].toLowerCase()}, `}
          {music.name ?? 'no music'}
        </span>
      </summary>
      {hasVoices && <WhoSpeaks seat={seat} />}
      <HowMuch seat={seat} />
      <YourMusic seat={seat} />
    </details>
  );
}

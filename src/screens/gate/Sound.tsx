import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { WORDS_NAMES } from '../words';
import { HowMuch } from './HowMuch';
import { WhoSpeaks } from './WhoSpeaks';
import { YourMusic } from './YourMusic';

/** Voice, words and music, folded away: they are good as they are for most. */
export function Sound({ seat }: { seat: Seat }) {
  const { device, speaks } = useSeat(seat, (state) => state.voices);
  // Sayso's own voice and the recogniser know the same languages.
  const isShipped = useSeat(seat, (state) => state.language.isHeard);
  const isMute = useSeat(seat, (state) => state.voice === 'none');
  const music = useSeat(seat, (state) => state.music);
  const words = useSeat(seat, (state) => state.words);
  const voice = isMute
    ? 'no voice, all in large type'
    : (device.find(({ id }) => id === speaks)?.name ??
      (isShipped ? 'Sayso’s own voice' : 'no voice yet'));
  return (
    <details className="card sound" open={music.trouble || undefined}>
      <summary>
        Voice, words, music{' '}
        <span className="not-here-count">
          {`${voice}, `}
          {`${WORDS_NAMES[words].toLowerCase()}, `}
          {music.name ?? 'no music'}
        </span>
      </summary>
      {(isShipped || device.length > 0) && <WhoSpeaks seat={seat} isShipped={isShipped} />}
      <HowMuch seat={seat} />
      <YourMusic seat={seat} />
    </details>
  );
}

import type { ToneName } from '../../ports';
import type { Seat } from '../seat';
import { Shape, type ShapeName } from '../Shape';
import { useSeat } from '../useSeat';

/** Tones that tell what nothing else on the screen tells; the others have their phase or count. */
export const SIGNS: Partial<Record<ToneName, { shape: ShapeName; words: string }>> = {
  heard: { shape: 'ear', words: 'Heard' },
  accepted: { shape: 'held', words: 'Noted' },
  'not-understood': { shape: 'question', words: 'Say it again' },
  'not-stored': { shape: 'notice', words: 'Not stored yet' },
};

/**
 * The last tone for those who cannot hear it: a shape and words, read from three metres, until
 * something else begins. A screen reader is told where there is no voice, as of what is said.
 */
export function ToneSign({ seat }: { seat: Seat }) {
  const tone = useSeat(seat, (state) => state.view.tone);
  const silent = useSeat(seat, (state) => state.voice === 'none');
  const sign = tone === null ? undefined : SIGNS[tone];
  return (
    <p className="tone-sign" aria-live={silent ? 'polite' : 'off'}>
      {sign !== undefined && (
        <>
          <Shape name={sign.shape} /> {sign.words}
        </>
      )}
    </p>
  );
}

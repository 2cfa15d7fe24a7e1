import type { ToneName } from '../../ports';
import { Shape, type ShapeName } from '../Shape';

/** Tones that tell what nothing else on the screen tells; the others have their phase or count. */
const SIGNS: Partial<Record<ToneName, { shape: ShapeName; words: string }>> = {
  accepted: { shape: 'held', words: 'Noted' },
  'not-understood': { shape: 'question', words: 'Say it again' },
  'not-stored': { shape: 'notice', words: 'Not stored yet' },
};

/** A tone for those who cannot hear it: a shape and words until something else begins. */
export function ToneSign({ tone }: { tone: ToneName | null }) {
  const sign = tone === null ? undefined : SIGNS[tone];
  return (
    <p className="tone-sign">
      {sign !== undefined && (
        <>
          <Shape name={sign.shape} /> {sign.words}
        </>
      )}
    </p>
  );
}

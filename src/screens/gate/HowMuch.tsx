import { WORDS, type Words } from '../../domain/log';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { WORDS_NAMES } from '../words';
import { OneOf } from '../forms/OneOf';

const MEANS: Record<Words, string> = {
  learning: 'every set-up whole, and why',
  normal: 'only what is new or changed',
  tones: 'tones and counts; warnings and questions are still spoken',
};

/** How much is said in a session. */
export function HowMuch({ seat }: { seat: Seat }) {
  const chosen = useSeat(seat, (state) => state.words);
  return (
    <fieldset className="how-much">
      <legend>How much is said</legend>
      <OneOf
        options={WORDS}
        chosen={chosen}
        onChange={(words) => seat.chooseWords(words)}
        words={(words) => (
          <span>
            {WORDS_NAMES[words]}: <span className="means">{MEANS[words]}</span>
          </span>
        )}
      />
      <p>“Fewer words” and “more words” change it during a session. It is remembered here.</p>
    </fieldset>
  );
}

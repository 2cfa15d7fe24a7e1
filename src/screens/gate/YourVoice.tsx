import { lazy, Suspense, useState } from 'react';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { ForgetVoice } from '../voiceCheck/ForgetVoice';
import { KeptWords } from '../voiceCheck/KeptWords';

/** Seldom opened, so that it does not delay the gate. */
const CoachWords = lazy(() => import('./CoachWords'));

/** The ear fitted to this coach: the voice check, own words, the call word. */
export function YourVoice({ seat }: { seat: Seat }) {
  const { readings, ownWords, callWord } = useSeat(seat, (state) => state.coach);
  const [wasOpened, setOpened] = useState(false);
  const told = [
    ...(ownWords.length > 0 ? [`${ownWords.length} of your own`] : []),
    callWord === null ? 'call word off' : `call word “${callWord}”`,
  ].join(', ');
  return (
    <section className="card your-voice" aria-labelledby="your-voice-title">
      <h2 id="your-voice-title">Your voice, your words</h2>
      <p>
        {readings === 0
          ? 'Read twenty replies aloud, and Sayso fits itself to your voice, microphone and room. Two minutes, no recording.'
          : 'Sayso is fitted to your voice.'}
      </p>
      <div className="pair">
        <button type="button" onClick={() => seat.checkVoice()}>
          {readings === 0 ? 'Check my voice' : 'Check it again'}
        </button>
        <ForgetVoice seat={seat} />
      </div>
      <KeptWords seat={seat} />
      <details onToggle={({ currentTarget }) => currentTarget.open && setOpened(true)}>
        <summary>
          Words <span className="not-here-count">{told}</span>
        </summary>
        {wasOpened && (
          <Suspense fallback={<p>One moment.</p>}>
            <CoachWords seat={seat} />
          </Suspense>
        )}
      </details>
    </section>
  );
}

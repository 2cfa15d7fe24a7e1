import type { LineResult, LineVerdict } from '../../session/voiceCheck';
import type { Seat } from '../seat';
import { Shape, type ShapeName } from '../Shape';
import { useSeat } from '../useSeat';
import { ForgetVoice } from './ForgetVoice';
import { KeptWords } from './KeptWords';

/** Which replies this voice, microphone and room confuse, and what to say instead. */
export function Results({ seat, results }: { seat: Seat; results: LineResult[] }) {
  const readings = useSeat(seat, (state) => state.coach.readings);
  const read = results.filter(({ verdict }) => verdict !== 'skipped');
  const well = results.filter(({ verdict }) => verdict === 'well').length;
  const others = read.filter(({ verdict }) => verdict !== 'well');
  return (
    <>
      <section className="card" aria-label="What came of it">
        <p role="status" className="tally">
          {read.length === 0
            ? 'Nothing was read, so nothing was learnt.'
            : `${well} of ${read.length} replies are heard well in your voice, here.`}
        </p>
        {others.length > 0 && (
          <ul className="results">
            {others.map((result) => (
              <li key={result.text}>
                <Shape name={SHAPES[result.verdict]} />
                <span>
                  <strong>{result.text}</strong>: {WORDS[result.verdict](result)}{' '}
                  {result.better === null
                    ? ADVICE
                    : `Say “${result.better}” instead: that is heard well.`}
                </span>
              </li>
            ))}
          </ul>
        )}
        {readings > 0 && (
          <p>
            Sayso has fitted itself to your voice. It keeps which sounds you make of which words, on
            this device; no recording.
          </p>
        )}
        <KeptWords seat={seat} />
      </section>
      <div className="pair">
        <button type="button" className="first" onClick={() => seat.leave()}>
          To the start
        </button>
        <button type="button" onClick={() => seat.checkVoice()}>
          Read again
        </button>
        <ForgetVoice seat={seat} />
      </div>
    </>
  );
}

const ADVICE = 'Say it slower, or use the button for it.';

const WORDS: Record<LineVerdict, (result: LineResult) => string> = {
  well: () => 'heard well.',
  skipped: () => 'left out.',
  unsure: ({ takenFor }) =>
    takenFor === null
      ? 'heard, but not surely; it would be asked back.'
      : `once taken for “${takenFor}”.`,
  other: ({ takenFor }) => `taken for “${takenFor ?? ''}”.`,
  unheard: () => 'not heard twice.',
};

const SHAPES: Record<LineVerdict, ShapeName> = {
  well: 'held',
  skipped: 'not-tested',
  unsure: 'short',
  other: 'lost',
  unheard: 'notice',
};

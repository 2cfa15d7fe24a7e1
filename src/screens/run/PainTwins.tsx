import { RED_FLAGS, type PainKind } from '../../domain/findings';
import { Shape } from '../Shape';
import { PAIN_KIND_WORDS, RED_FLAG_WORDS } from '../words';
import { replyOf } from './replies';
import type { Send } from './Say';

/** "Pain", from anywhere: the work pauses at once and the number is asked. */
export const PainTwin = ({ send }: Send) => (
  <button type="button" className="pain" onClick={() => send(replyOf({ result: 'pain' }))}>
    <Shape name="pain" /> Pain
  </button>
);

const PAIN_NUMBERS = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

export const PainNumberTwins = ({ send }: Send) => (
  <div className="row numbers">
    {PAIN_NUMBERS.map((pain) => (
      <button key={pain} type="button" onClick={() => send(replyOf({ pain }))}>
        {pain}
      </button>
    ))}
  </div>
);

const PAIN_KINDS: PainKind[] = ['new', 'sharp', 'known'];

export const PainKindTwins = ({ send }: Send) => (
  <div className="row three">
    {PAIN_KINDS.map((painKind) => (
      <button key={painKind} type="button" onClick={() => send(replyOf({ painKind }))}>
        {PAIN_KIND_WORDS[painKind]}
      </button>
    ))}
  </div>
);

export const RedFlagTwins = ({ send, close }: Send & { close: () => void }) => (
  <div className="red-flags">
    <p>Any of these ends the session now and is recorded.</p>
    <div className="row three">
      {RED_FLAGS.map((redFlag) => (
        <button
          key={redFlag}
          type="button"
          className="pain"
          onClick={() => send(replyOf({ redFlag }))}
        >
          {RED_FLAG_WORDS[redFlag]}
        </button>
      ))}
    </div>
    <button type="button" onClick={close}>
      None of these
    </button>
  </div>
);

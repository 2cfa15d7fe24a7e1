import { useId, useState, type FormEvent } from 'react';
import { repliesToReword, type OwnWords } from '../../domain/hearing/coachWords';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';

/** Words of the coach's own for a reply, and the word after which replies count. */
export default function CoachWords({ seat }: { seat: Seat }) {
  return (
    <div className="coach-words">
      <OwnWordsForm seat={seat} />
      <CallWordForm seat={seat} />
    </div>
  );
}

/** What was asked for and what became of it: told beside the field. */
interface Told {
  isWrong: boolean;
  words: string;
}

function OwnWordsForm({ seat }: { seat: Seat }) {
  const book = useSeat(seat, (state) => state.book);
  const own = useSeat(seat, (state) => state.coach.ownWords);
  const replies = repliesToReword(book);
  const keyOf = ({ kind, id }: Pick<OwnWords, 'kind' | 'id'>) => `${kind}/${id}`;
  const [chosen, setChosen] = useState(replies[0] ? keyOf(replies[0]) : '');
  const [typed, setTyped] = useState('');
  const [told, setTold] = useState<Told | null>(null);
  const [isBusy, setBusy] = useState(false);
  const problem = useId();
  const readbackOf = (words: OwnWords) =>
    replies.find((reply) => keyOf(reply) === keyOf(words))?.readback ?? words.id;

  const add = async (event: FormEvent) => {
    event.preventDefault();
    const reply = replies.find((each) => keyOf(each) === chosen);
    if (reply === undefined || isBusy) return;
    setBusy(true);
    const wrong = await seat
      .addOwnWords({ kind: reply.kind, id: reply.id }, typed)
      .catch(() => 'This part of the page did not load. Look at the connection and try again.');
    setBusy(false);
    if (wrong === null) setTyped('');
    const added = `Added: say “${typed.trim()}” for “${reply.readback}”. Reading it aloud in the voice check helps it to be heard.`;
    setTold({ isWrong: wrong !== null, words: wrong ?? added });
  };

  return (
    <form onSubmit={(event) => void add(event)} aria-label="Words of your own">
      <label>
        For
        <select value={chosen} onChange={({ target }) => setChosen(target.value)}>
          {replies.map((reply) => (
            <option key={keyOf(reply)} value={keyOf(reply)}>
              {reply.readback}
            </option>
          ))}
        </select>
      </label>
      <label>
        I say
        <input
          value={typed}
          onChange={({ target }) => setTyped(target.value)}
          autoComplete="off"
          autoCapitalize="none"
          maxLength={60}
          aria-invalid={told?.isWrong === true}
          aria-describedby={problem}
        />
      </label>
      <button type="submit">Add</button>
      <Said id={problem} told={told} isBusy={isBusy} />
      {own.length > 0 && (
        <ul aria-label="Your words">
          {own.map((words) => (
            <li key={`${keyOf(words)} ${words.words}`}>
              <span>
                “{words.words}” for “{readbackOf(words)}”
              </span>
              <button
                type="button"
                aria-label={`Remove “${words.words}”`}
                onClick={() => seat.removeOwnWords(words)}
              >
                Remove
              </button>
            </li>
          ))}
        </ul>
      )}
    </form>
  );
}

function CallWordForm({ seat }: { seat: Seat }) {
  const callWord = useSeat(seat, (state) => state.coach.callWord);
  const [typed, setTyped] = useState('');
  const [told, setTold] = useState<Told | null>(null);
  const [isBusy, setBusy] = useState(false);
  const problem = useId();
  const set = async (word: string) => {
    if (isBusy) return;
    setBusy(true);
    const wrong = await seat
      .setCallWord(word)
      .catch(() => 'This part of the page did not load. Look at the connection and try again.');
    setBusy(false);
    if (wrong === null) setTyped('');
    const done = word === '' ? 'Off: every reply counts.' : 'On.';
    setTold({ isWrong: wrong !== null, words: wrong ?? done });
  };
  return (
    <form
      aria-label="Call word"
      onSubmit={(event) => {
        event.preventDefault();
        void set(typed);
      }}
    >
      <p>
        {callWord === null
          ? 'Call word, off. With one, a reply counts only after it, for those who talk a lot. Stop, pain and warning signs always count.'
          : `Replies count only after “${callWord}”: “${callWord} limited”. Stop, pain and warning signs always count.`}
      </p>
      <label>
        Call word
        <input
          value={typed}
          onChange={({ target }) => setTyped(target.value)}
          autoComplete="off"
          autoCapitalize="none"
          maxLength={40}
          aria-invalid={told?.isWrong === true}
          aria-describedby={problem}
        />
      </label>
      <div className="pair">
        <button type="submit" disabled={typed.trim() === ''}>
          Use it
        </button>
        {callWord !== null && (
          <button type="button" onClick={() => void set('')}>
            Call word off
          </button>
        )}
      </div>
      <Said id={problem} told={told} isBusy={isBusy} />
    </form>
  );
}

const Said = ({ id, told, isBusy }: { id: string; told: Told | null; isBusy: boolean }) => (
  <p id={id} role="status" className={told?.isWrong === true ? 'trouble' : ''}>
    {isBusy ? (
      'Checking what it sounds like…'
    ) : told === null ? null : (
      <>
        <Shape name={told.isWrong ? 'notice' : 'held'} /> {told.words}
      </>
    )}
  </p>
);

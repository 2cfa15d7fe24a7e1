import { useId, useState, type FormEvent } from 'react';
import { repliesToReword, type OwnWords } from '../../domain/hearing/coachWords';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import CallWordForm from './CallWordForm';
import { Said, type Told } from './Said';

/** Words of the coach's own for a reply, and the word after which replies count. */
export default function CoachWords({ seat }: { seat: Seat }) {
  return (
    <div className="coach-words">
      <OwnWordsForm seat={seat} />
      <CallWordForm seat={seat} />
    </div>
  );
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

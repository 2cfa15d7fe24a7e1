import { useId, useState } from 'react';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { Said, type Told } from './Said';

/** The word after which alone replies count; `isFirst`: the keyboard stands in its field. */
export default function CallWordForm({ seat, isFirst = false }: { seat: Seat; isFirst?: boolean }) {
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
          autoFocus={isFirst}
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

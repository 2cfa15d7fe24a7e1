import { useId, useState } from 'react';
import { numberSpoken } from '../../domain/hearing/numbers';
import type { CueBook, PromptId } from '../../domain/script';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { faultsAt } from './replies';

const FAULTS_SHOWN = 2;

/** Replies in words where no ear hears the language, with a few that fit the open question. */
export function Typed({ seat }: { seat: Seat }) {
  const { chosen } = useSeat(seat, (state) => state.language);
  const book = useSeat(seat, (state) => state.book);
  const prompt = useSeat(seat, (state) => state.view.prompt);
  const [text, setText] = useState('');
  const field = useId();
  return (
    <form
      className="typed"
      onSubmit={(event) => {
        event.preventDefault();
        seat.type(text);
        setText('');
      }}
    >
      <label htmlFor={field}>
        Type your answer, such as: <span lang={chosen}>{fitting(book, prompt).join(' · ')}</span>
      </label>
      <div className="typed-line">
        <input
          id={field}
          lang={chosen}
          value={text}
          autoComplete="off"
          autoCapitalize="none"
          enterKeyHint="send"
          onChange={(event) => setText(event.target.value)}
        />
        <button type="submit">Send</button>
      </div>
    </form>
  );
}

function fitting(book: CueBook, prompt: PromptId): string[] {
  const { commands, results, pain, numbers } = book.vocabulary;
  const read = (ways: { readback: string }[]) => ways.map(({ readback }) => readback);
  switch (prompt) {
    case 'idle':
      return read([commands.ready, commands.pause, pain]);
    case 'confirm':
      return read([commands.yes, commands.no]);
    case 'pain/how-much':
      return [0, 3, 10].map((number) => numberSpoken(numbers, number));
    case 'pain/kind':
      return read(Object.values(pain.kinds));
    default: {
      const faults = faultsAt(book, prompt).slice(0, FAULTS_SHOWN);
      return read([results.held, results.short, ...faults, pain]);
    }
  }
}

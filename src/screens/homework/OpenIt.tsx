import { useState, type FormEvent } from 'react';
import { TextField } from '../forms/TextField';
import type { Seat } from '../seat';

/** Homework, or what came of it, out of a file or a link that was pasted. */
export function OpenIt({ seat }: { seat: Seat }) {
  const [text, setText] = useState('');
  const [wrong, setWrong] = useState<string | null>(null);
  const open = (event: FormEvent) => {
    event.preventDefault();
    if (text.trim() === '') setWrong('There is no link. Paste the one that you were sent.');
    else seat.homework.openText(text);
  };
  return (
    <section className="card" aria-labelledby="open-title">
      <h2 id="open-title">Open what you were sent</h2>
      <p>
        A link opens by itself, and the camera of a phone reads a code. Here it can be pasted, or
        come out of a file. It is read on this device and goes nowhere else.
      </p>
      <label className="button file">
        Choose a file
        <input
          type="file"
          accept=".json,.txt,application/json,text/plain"
          onChange={({ target }) => {
            const [chosen] = target.files ?? [];
            if (chosen !== undefined) seat.homework.openFile(chosen);
            // Or the same file, mended, would be no change.
            target.value = '';
          }}
        />
      </label>
      <form noValidate onSubmit={open}>
        <TextField
          hasLines
          label="Or paste the link"
          hint="The whole message will do."
          value={text}
          wrong={wrong}
          onChange={setText}
        />
        <button type="submit">Open it</button>
      </form>
    </section>
  );
}

import { useEffect, useRef, useState, type FormEvent } from 'react';
import {
  lettersIn,
  NOTE_LETTERS_MOST,
  NOTE_LETTERS_NEAR,
  noteFrom,
} from '../../domain/reporting/note';
import type { Note } from '../../ports';
import { dateInWords } from '../dates';
import { focusWrong } from '../forms/focusWrong';
import { TextField } from '../forms/TextField';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { AskOnce } from '../forms/AskOnce';

interface NotesProps {
  seat: Seat;
  session: string;
  /** Newest last; null where they cannot be read. */
  notes: Note[] | null;
}

/** "2 March 2031, 10:05", as it was at that place. */
export const momentInWords = (moment: string): string =>
  `${dateInWords(moment)}, ${moment.slice(11, 16)}`;

/** What is typed and not kept yet stays while other pages are looked at. */
const drafts = new Map<string, string>();

/** Free words of the coach about a visit. */
export const Notes = ({ seat, session, notes }: NotesProps) => (
  <section className="card notes" aria-labelledby="notes-title">
    <h2 id="notes-title">Notes</h2>
    {notes === null && (
      <Trouble words="The notes on this device cannot be read now. Load the page again." />
    )}
    {notes !== null && notes.length > 0 && (
      <ol>
        {notes.map((note) => (
          <li key={note.id}>
            <OneNote seat={seat} note={note} />
          </li>
        ))}
      </ol>
    )}
    {notes !== null && <AddNote key={session} seat={seat} session={session} />}
  </section>
);

function OneNote({ seat, note }: { seat: Seat; note: Note }) {
  const [isAsking, setAsking] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const on = momentInWords(note.writtenAt);
  return (
    <>
      <p className="detail">
        <time dateTime={note.writtenAt}>{on}</time>
      </p>
      <p className="note-text">{note.text}</p>
      {isAsking ? (
        <AskOnce
          question="This note is deleted for good."
          yes="Delete the note"
          no="Keep it"
          onYes={() => void seat.visits.removeNote(note.id).then(setTrouble)}
          onNo={() => setAsking(false)}
        />
      ) : (
        <button
          type="button"
          aria-label={`Delete the note of ${on}`}
          onClick={() => setAsking(true)}
        >
          Delete
        </button>
      )}
      <Trouble words={trouble} />
    </>
  );
}

function AddNote({ seat, session }: { seat: Seat; session: string }) {
  const [text, setText] = useState(() => drafts.get(session) ?? '');
  const [wrong, setWrong] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => focusWrong(form.current), [wrong]);
  const type = (typed: string) => {
    setText(typed);
    drafts.set(session, typed);
  };
  const keep = async (event: FormEvent) => {
    event.preventDefault();
    const read = noteFrom(text);
    setWrong('problem' in read ? read.problem : null);
    if ('problem' in read) return;
    const problem = await seat.visits.addNote(text);
    setTrouble(problem);
    if (problem === null) type('');
  };
  const left = NOTE_LETTERS_MOST - lettersIn(text);
  const isNear = lettersIn(text) >= NOTE_LETTERS_NEAR;
  return (
    <form ref={form} aria-label="New note" noValidate onSubmit={(event) => void keep(event)}>
      <TextField
        hasLines
        label="Add a note"
        hint="Such as what was missed, or what to look at next time. It stays on this device, apart from the record."
        value={text}
        wrong={wrong}
        onChange={type}
      />
      <p role="status" className="letters-left">
        {isNear && left >= 0 && `${left} letters left.`}
        {left < 0 && `${-left} letters too many.`}
      </p>
      <button type="submit">Keep the note</button>
      <Trouble words={trouble} />
    </form>
  );
}

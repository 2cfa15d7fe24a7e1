import { useEffect, useState } from 'react';
import type { Note } from '../../ports';
import { momentInWords } from '../finished/Notes';
import type { Seat } from '../seat';

/** What the coach noted last of them, with the visit it is about; nothing where nothing was. */
export function LastNote({ seat, person }: { seat: Seat; person: string }) {
  const [note, setNote] = useState<Note | null>(null);
  useEffect(() => {
    let isGone = false;
    void seat.visits.lastNote(person).then((last) => {
      if (!isGone) setNote(last);
    });
    return () => {
      isGone = true;
    };
  }, [seat, person]);
  if (note === null) return null;
  return (
    <div className="last-note">
      <p className="detail">
        Last note, <time dateTime={note.writtenAt}>{momentInWords(note.writtenAt)}</time>
      </p>
      <p className="note-text">{note.text}</p>
    </div>
  );
}

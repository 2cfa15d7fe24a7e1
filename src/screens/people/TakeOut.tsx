import { useState } from 'react';
import { takenOut, type ListKind } from '../../domain/people/takenOut';
import type { Seat } from '../seat';
import type { PersonKnown } from './state';
import { Trouble } from '../forms/Trouble';

/** The list as files for other programs, and where they go. */
export function TakeOut({ seat, all }: { seat: Seat; all: readonly PersonKnown[] }) {
  const [file, setFile] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const count = takenOut(all).length;
  const take = async (kind: ListKind) => {
    const made = await seat.people.takeOut(kind);
    setFile('file' in made ? made.file : null);
    setTrouble('say' in made ? made.say : null);
  };
  return (
    <details className="card take-out">
      <summary>Export the list</summary>
      <div className="folded">
        <p>
          {count === 1 ? 'The one in your list' : `All ${count} in your list`}
          {count < all.length && ', without the invented ones'}, as a file for your spreadsheet. It
          holds personal facts: names, years of birth, measures, your notes, how they stand. It goes
          to the downloads of this device and nowhere else; from there on you look after it.
        </p>
        <div className="pair">
          <button type="button" onClick={() => void take('who')}>
            Who they are
          </button>
          <button type="button" onClick={() => void take('standing')}>
            How they stand
          </button>
        </div>
        <p className="detail">“Who they are” can be imported again, here or on another device.</p>
        <p role="status">{file !== null && `${file} is handed to your downloads.`}</p>
        <Trouble words={trouble} />
      </div>
    </details>
  );
}

import { useId, useState, type FormEvent } from 'react';
import type { CueBook, DrillScript } from '../../../domain/script';
import { blockTyped } from '../../../domain/warmUp/typing';
import { TextField } from '../../forms/TextField';
import { capitalised } from '../words';
import { newBlock, newBreaths, type BlockDraft, type PartDraft } from './draft';

/** As many as are seen at a glance. */
const SHOWN = 8;

/** Adds a drill by typing a part of its name, or long breaths. */
export function AddBlock({
  book,
  arrangement,
  onAdd,
}: {
  book: CueBook;
  arrangement: PartDraft['arrangement'];
  onAdd: (block: BlockDraft) => void;
}) {
  const [typed, setTyped] = useState('');
  const [isAll, setAll] = useState(false);
  const found = useId();
  const isStations = arrangement === 'stations';
  const { drills, workSeconds, changeSeconds } = blockTyped(book, typed);
  const isTyped = typed.trim() !== '';
  const shown = isAll ? drills : isTyped ? drills.slice(0, SHOWN) : [];
  const add = ({ id }: DrillScript) => {
    onAdd(
      newBlock({
        drill: id,
        ...(workSeconds !== null && { work: `${workSeconds}` }),
        ...(changeSeconds !== null && { change: `${changeSeconds}` }),
      }),
    );
    setTyped('');
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    // A form inside a form must not keep what is built.
    event.stopPropagation();
    const [first] = drills;
    if (first !== undefined && isTyped) add(first);
  };
  return (
    <form
      className="add-block"
      onSubmit={submit}
      aria-label={isStations ? 'Add a station' : 'Add a block'}
    >
      <TextField
        label={isStations ? 'Add a station: type its drill' : 'Add a block: type its drill'}
        value={typed}
        onChange={setTyped}
        wrong={drills.length === 0 ? 'No drill has that in its name. Type less of it.' : null}
        hint={
          isStations
            ? 'A part of its name is enough. Enter adds the first.'
            : 'Such as “wall hinge 30 15”: 30 seconds of work, 15 to change. Enter adds the first.'
        }
      />
      <ul id={found} className="found" aria-label="Drills that can be added">
        {shown.map((drill) => (
          <li key={drill.id}>
            <button type="button" onClick={() => add(drill)}>
              Add <span lang={book.language}>{drill.name}</span>
            </button>
          </li>
        ))}
      </ul>
      <div className="pair">
        {(isAll || drills.length > shown.length) && (
          <button
            type="button"
            aria-expanded={isAll}
            aria-controls={found}
            onClick={() => setAll(!isAll)}
          >
            {isAll ? 'Show fewer drills' : `Show all ${drills.length} drills`}
          </button>
        )}
        {!isStations && (
          <button type="button" onClick={() => onAdd(newBreaths())}>
            Add long breaths out
          </button>
        )}
      </div>
    </form>
  );
}

/** As its heading. */
export const titleOf = (book: CueBook, { drill, name }: BlockDraft): string =>
  capitalised(
    drill === null ? name.trim() || 'long breaths out' : (book.drills[drill]?.name ?? drill),
  );

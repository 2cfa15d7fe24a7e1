import { useRef, useState } from 'react';
import type { Sheet } from '../../domain/people/sheet';
import type { Seat } from '../seat';
import { useDropped } from './useDropped';

/** As browsers and devices call lists of values. */
const LISTS =
  '.csv,.tsv,.txt,text/csv,text/comma-separated-values,text/tab-separated-values,text/plain';

interface ChooseFileProps {
  seat: Seat;
  /** Of the file that was read last, or null. */
  name: string | null;
  /** Nothing else on the screen comes before it. */
  isFirst: boolean;
  onRead: (name: string, read: { sheet: Sheet } | { say: string }) => void;
}

/** A file, chosen or dropped; the same one can be chosen again after it was mended. */
export function ChooseFile({ seat, name, isFirst, onRead }: ChooseFileProps) {
  const [reading, setReading] = useState<string | null>(null);
  const newest = useRef(0);
  const read = async (file: File) => {
    const turn = (newest.current += 1);
    setReading(file.name);
    const sheet = await seat.people.readSheet(file);
    // A file that was chosen meanwhile counts alone.
    if (turn !== newest.current) return;
    setReading(null);
    onRead(file.name, sheet);
  };
  const isOver = useDropped((files) => {
    const [file, ...more] = files;
    if (file === undefined) return;
    if (more.length === 0) void read(file);
    else onRead('', { say: 'That were several files. Drop one after the other.' });
  });
  return (
    <section className={`card choose-file ${isOver ? 'over' : ''}`} aria-labelledby="file-title">
      <h2 id="file-title">The file</h2>
      <p>
        In your spreadsheet, save the list as CSV: a line for each athlete, a name is enough. It is
        read here and goes nowhere else.
      </p>
      <label className={`button file ${isFirst && name === null ? 'first' : ''}`}>
        {name === null ? 'Choose a file' : 'Choose again'}
        <input
          type="file"
          accept={LISTS}
          onChange={({ target }) => {
            const [file] = target.files ?? [];
            if (file !== undefined) void read(file);
            // Or the same file, mended, would be no change.
            target.value = '';
          }}
        />
      </label>
      <p role="status" className="detail">
        {reading !== null
          ? `Reading ${reading}.`
          : name !== null
            ? `Read: ${name}`
            : 'Or drop it here.'}
      </p>
    </section>
  );
}

import { useState } from 'react';
import { guessColumns, type ColumnFields } from '../../domain/people/columns';
import { withTitles, type Sheet } from '../../domain/people/sheet';
import { Trouble } from '../forms/Trouble';
import { Back } from '../Back';
import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { ChooseFile } from './ChooseFile';
import { Came } from './Came';
import { Columns } from './Columns';
import { Preview } from './Preview';
import './import.css';

/** A file that was read, and what its columns hold. */
interface Chosen {
  /** Grows with each file. */
  turn: number;
  name: string;
  sheet: Sheet;
  fields: ColumnFields;
}

/** Athletes out of a spreadsheet: a file, what its columns hold, who will come, one tap. */
export default function ImportScreen({ seat }: { seat: Seat }) {
  const people = useSeat(seat, (state) => state.people);
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [came, setCame] = useState<number | null>(null);
  const heading = useFocusOnArrival<HTMLHeadingElement>(came);
  const take = (name: string, read: { sheet: Sheet } | { say: string }) => {
    setCame(null);
    setTrouble('say' in read ? read.say : null);
    if ('say' in read) return setChosen(null);
    const { sheet } = read;
    setChosen((before) => ({
      ...{ turn: (before?.turn ?? 0) + 1, name, sheet },
      fields: guessColumns(sheet.columns),
    }));
  };
  const done = (count: number) => {
    setCame(count);
    setChosen(null);
  };
  return (
    <main className="page import" lang="en">
      <header>
        <Back onClick={() => seat.people.show()} />
        <h1 ref={heading} tabIndex={-1}>
          {came === null ? 'Import a list' : cameWords(came)}
        </h1>
      </header>
      {came !== null && <Came seat={seat} />}
      <ChooseFile seat={seat} name={chosen?.name ?? null} isFirst={came === null} onRead={take} />
      <Trouble words={trouble ?? people.trouble} />
      {people.state === 'loading' && <p role="status">Looking for your athletes.</p>}
      {chosen !== null && people.state === 'here' && people.trouble === null && (
        <>
          <Preview
            key={chosen.turn}
            {...{ seat, people }}
            sheet={chosen.sheet}
            fields={chosen.fields}
            onImported={done}
          />
          <Columns
            columns={chosen.sheet.columns}
            hasTitles={chosen.sheet.hasTitles}
            onTitles={(hasTitles) =>
              setChosen({ ...chosen, sheet: withTitles(chosen.sheet, hasTitles) })
            }
            fields={chosen.fields}
            onChange={(fields) => setChosen({ ...chosen, fields })}
          />
        </>
      )}
    </main>
  );
}

const cameWords = (count: number) => (count === 1 ? '1 athlete came' : `${count} athletes came`);

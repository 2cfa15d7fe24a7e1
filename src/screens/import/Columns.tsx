import { useId } from 'react';
import type { Column, ColumnFields } from '../../domain/people/columns';
import { PERSON_FIELDS, type PersonField } from '../../domain/people/personFrom';

const FIELD_WORDS: Record<PersonField, string> = {
  name: 'Name, or a part of it',
  squad: 'Squad',
  birthYear: 'Birth year or date',
  sex: 'Sex',
  stature: 'Stature',
  knee: 'Knee, measured',
  angleTool: 'Angles are read with',
  mindText: 'Keep in mind',
  guardianAgreedOn: 'A guardian agreed on',
};

interface ColumnsProps {
  columns: readonly Column[];
  /** They are what the first line says. */
  hasTitles: boolean;
  onTitles: (hasTitles: boolean) => void;
  fields: ColumnFields;
  onChange: (fields: ColumnFields) => void;
}

/** What each column of the file holds, as guessed and to be changed. */
export const Columns = ({ columns, hasTitles, onTitles, fields, onChange }: ColumnsProps) => (
  <section className="card columns-card" aria-labelledby="columns-title">
    <h2 id="columns-title">What each column holds</h2>
    <p>Guessed by their titles and what stands in them. Change what is not so.</p>
    <label className="tick">
      <input
        type="checkbox"
        checked={hasTitles}
        onChange={({ target }) => onTitles(target.checked)}
      />
      The first line has the titles
    </label>
    <ul className="columns">
      {columns.map((column, at) => (
        <li key={at}>
          <OneColumn
            column={column}
            field={fields[at] ?? null}
            onChange={(field) => onChange(fields.map((each, of) => (of === at ? field : each)))}
          />
        </li>
      ))}
    </ul>
  </section>
);

function OneColumn({
  column: { title, samples },
  field,
  onChange,
}: {
  column: Column;
  field: PersonField | null;
  onChange: (field: PersonField | null) => void;
}) {
  const id = useId();
  return (
    <div className={`field ${field === null ? 'left-out' : ''}`}>
      <label htmlFor={id}>{title}</label>
      <p id={`${id}-samples`} className="hint">
        {samples.length === 0 ? 'Nothing stands in it' : samples.map(short).join(' · ')}
      </p>
      <select
        id={id}
        value={field ?? ''}
        aria-describedby={`${id}-samples`}
        onChange={({ target }) =>
          onChange(PERSON_FIELDS.find((each) => each === target.value) ?? null)
        }
      >
        <option value="">Leave it out</option>
        {PERSON_FIELDS.map((each) => (
          <option key={each} value={each}>
            {FIELD_WORDS[each]}
          </option>
        ))}
      </select>
    </div>
  );
}

const SAMPLE_MOST = 40;
const short = (sample: string) =>
  sample.length > SAMPLE_MOST ? `${sample.slice(0, SAMPLE_MOST)}…` : sample;

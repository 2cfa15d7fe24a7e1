import { useState } from 'react';
import type { ImportProblem } from '../../domain/people/importing';
import { Shape } from '../Shape';

/** More than anybody mends at once. */
const SHOWN = 50;

/** Everything that keeps the file out, by line and column, and what to do. */
export function Problems({ problems }: { problems: readonly ImportProblem[] }) {
  const [areAll, setAll] = useState(false);
  const shown = areAll ? problems : problems.slice(0, SHOWN);
  const isOfLines = problems.some(({ line }) => line !== null);
  return (
    <>
      <ul className="problems">
        {shown.map(({ line, column, say }, at) => (
          <li key={at}>
            <Shape name="notice" />{' '}
            <span>
              {line !== null && <strong>{placeOf(line, column)}: </strong>}
              {say}
            </span>
          </li>
        ))}
      </ul>
      {shown.length < problems.length && (
        <button type="button" onClick={() => setAll(true)}>
          Show all {problems.length}
        </button>
      )}
      {isOfLines && (
        <p>Mend them in your spreadsheet, save it, and choose it again; or leave the column out.</p>
      )}
    </>
  );
}

const placeOf = (line: number, column: string | null) =>
  column === null ? `Line ${line}` : `Line ${line}, ${column}`;

import type { CueBook } from '../../domain/script';
import { misfits, neededFor } from '../../domain/warmUp/equipping';
import type { WarmUp } from '../../domain/warmUp/warmUp';
import { Shape } from '../Shape';
import { misfitWords, neededWords, stationsWords } from './words';

/** What a group of so many needs, and whether its stations are too few or too many for them. */
export function Needs({ book, warmUp, people }: { book: CueBook; warmUp: WarmUp; people: number }) {
  const needed = neededFor(book, warmUp, people);
  const stations = stationsWords(warmUp, people);
  return (
    <div className="needs">
      {(needed.length > 0 || stations.length > 0) && <h2>What it needs</h2>}
      {stations.map((words) => (
        <p key={words}>{words}</p>
      ))}
      {needed.length > 0 && (
        <ul className="needed">
          {needed.map((one, at) => (
            <li key={at}>{neededWords(book, one)}</li>
          ))}
        </ul>
      )}
      {misfits(warmUp, people).map((misfit) => (
        <p key={misfit.part} className="misfit">
          <Shape name="notice" /> {misfitWords(misfit, people)}
        </p>
      ))}
    </div>
  );
}

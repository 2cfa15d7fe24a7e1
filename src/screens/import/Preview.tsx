import { useCallback, useMemo, useState } from 'react';
import { consentMissing } from '../../domain/people/age';
import type { ColumnFields } from '../../domain/people/columns';
import { byInitials } from '../../domain/people/initials';
import { importPeople, type Double, type Imported } from '../../domain/people/importing';
import type { Person } from '../../domain/people/person';
import type { Sheet } from '../../domain/people/sheet';
import type { PeopleState } from '../people/state';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { Problems } from './Problems';

interface PreviewProps {
  seat: Seat;
  people: PeopleState;
  sheet: Sheet;
  fields: ColumnFields;
  /** How many came. */
  onImported: (count: number) => void;
}

/** Who will come as the columns stand, who is left out, and what is to be mended first. */
export function Preview({ seat, people, sheet, fields, onImported }: PreviewProps) {
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setBusy] = useState(false);
  const [areInitials, setInitials] = useState(true);
  const { all, today } = people;
  const read = useCallback(
    (newId: () => string): Imported => {
      // Somebody real may have the name of somebody invented.
      const known = all.map(({ person }) => person).filter(({ isInvented }) => !isInvented);
      const whole = importPeople(sheet.rows, sheet.columns, fields, { today, newId, known });
      if (whole.people === null || !areInitials) return whole;
      return { ...whole, people: byInitials(whole.people, today) };
    },
    [sheet, fields, all, today, areInitials],
  );
  // A list of thousands takes a moment.
  const imported = useMemo(() => read(() => ''), [read]);
  const take = async () => {
    const { people: those } = read(() => crypto.randomUUID());
    if (those === null) return;
    setBusy(true);
    const problem = await seat.people.save(those);
    setBusy(false);
    setTrouble(problem);
    if (problem === null) onImported(those.length);
  };
  return (
    <section className="card preview" aria-labelledby="preview-title">
      <h2 id="preview-title">Who will come</h2>
      <p role="status" className="comes">
        {comesWords(imported)}
      </p>
      {sheet.isGuess && (
        <p className="guess">
          <Shape name="notice" /> Look at the accents: the file does not say how its letters are
          written. Where a name is wrong, save the list as “CSV UTF-8” and choose it again.
        </p>
      )}
      {imported.people === null ? (
        <Problems problems={imported.problems} />
      ) : (
        <>
          <First people={imported.people} />
          <Unasked
            people={imported.people}
            today={today}
            areInitials={areInitials}
            onInitials={setInitials}
          />
          <Doubles doubles={imported.doubles} />
          {imported.people.length > 0 && (
            <button type="button" className="first" disabled={isBusy} onClick={() => void take()}>
              Add {counted(imported.people.length)}
            </button>
          )}
        </>
      )}
      <Trouble words={trouble} />
    </section>
  );
}

const counted = (count: number) => (count === 1 ? '1 athlete' : `${count} athletes`);

function comesWords({ people, doubles, problems }: Imported): string {
  if (people === null) {
    const things = problems.length === 1 ? 'one thing needs' : `${problems.length} things need`;
    return `Nobody yet: ${things} mending first. Until then nothing of the file is added.`;
  }
  const left = doubles.length === 0 ? '' : `, ${doubles.length} left out`;
  if (people.length > 0) return `${counted(people.length)}${left}.`;
  return 'Nobody new: everybody of the file is in your list already.';
}

/** Enough to see that the columns are right. */
const SHOWN = 5;

function First({ people }: { people: Person[] }) {
  const more = people.length - SHOWN;
  return (
    <ul className="coming">
      {people.slice(0, SHOWN).map((one, at) => (
        <li key={at}>
          <strong>{one.name}</strong> <span className="detail">{factsOf(one)}</span>
        </li>
      ))}
      {more > 0 && <li>and {more} more</li>}
    </ul>
  );
}

/** Those under 18 without consent, who come by their initials unless that is not wanted. */
function Unasked({
  people,
  today,
  areInitials,
  onInitials,
}: {
  people: Person[];
  today: string;
  areInitials: boolean;
  onInitials: (areInitials: boolean) => void;
}) {
  const unasked = people.filter((one) => consentMissing(one, today)).length;
  return unasked === 0 ? null : (
    <>
      <p>
        <Shape name="notice" /> {unasked === 1 ? '1 of them' : `${unasked} of them`} may be under
        18, and no consent of a guardian is noted.
      </p>
      <label className="choice">
        <input
          type="checkbox"
          checked={areInitials}
          onChange={({ target }) => onInitials(target.checked)}
        />
        Keep only the initials of {unasked === 1 ? 'that one' : 'those'}
      </label>
    </>
  );
}

/** What the file knows of somebody, in the order of the columns' choices. */
const factsOf = (one: Person): string =>
  [
    one.squad,
    one.birthYear === null ? null : `born ${one.birthYear}`,
    one.sex,
    one.statureMillimetres === null ? null : `${one.statureMillimetres / 10} cm`,
    one.kneeMillimetres === null ? null : `knee ${one.kneeMillimetres / 10} cm`,
    one.mindText === '' ? null : one.mindText,
  ]
    .filter((fact) => fact !== null)
    .join(', ');

function Doubles({ doubles }: { doubles: Double[] }) {
  if (doubles.length === 0) return null;
  return (
    <details>
      <summary>Left out: {counted(doubles.length)} who would be here twice</summary>
      <ul>
        {doubles.map(({ line, name, birthYear, of }) => (
          <li key={line}>
            Line {line}: {name}
            {birthYear !== null && `, born ${birthYear}`},{' '}
            {of === 'known'
              ? 'is in your list and stays as they are.'
              : `stands on line ${of.line} too.`}
          </li>
        ))}
      </ul>
    </details>
  );
}

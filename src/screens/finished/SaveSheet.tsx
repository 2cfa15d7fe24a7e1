import { useState } from 'react';
import { OneOf } from '../forms/OneOf';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { SHEET_FORMS, type SheetWanted } from './state';

const FORM_WORDS: Record<SheetWanted['as'], string> = {
  html: 'A page to print',
  text: 'Plain text',
  csv: 'Spreadsheet (CSV)',
  fhir: 'For a clinic (FHIR R4)',
};
const NAME_WORDS: Record<SheetWanted['nameAs'], string> = {
  initials: 'Initials',
  whole: 'The whole name',
  none: 'No name',
};
const NAMES = Object.keys(NAME_WORDS) as SheetWanted['nameAs'][];

/** What the session came to as one sheet in a file, for whoever goes on with the athlete. */
export function SaveSheet({ seat, isNamed }: { seat: Seat; isNamed: boolean }) {
  const [wanted, setWanted] = useState<SheetWanted>({
    ...{ as: 'html', nameAs: 'initials', hasNotes: false },
  });
  const [trouble, setTrouble] = useState<string | null>(null);
  const [saved, setSaved] = useState<SheetWanted['as'] | null>(null);
  const change = (part: Partial<SheetWanted>) => {
    setWanted({ ...wanted, ...part });
    setSaved(null);
  };
  const save = async () => {
    const problem = await seat.visits.saveSheet(wanted);
    setTrouble(problem);
    setSaved(problem === null ? wanted.as : null);
  };
  return (
    <section className="card save-sheet" aria-labelledby="sheet-title">
      <h2 id="sheet-title">Readiness sheet</h2>
      <details>
        <summary>Save it as a file</summary>
        <fieldset>
          <legend>As what</legend>
          <OneOf
            options={[...SHEET_FORMS]}
            chosen={wanted.as}
            onChange={(as) => change({ as })}
            words={(as) => <span>{FORM_WORDS[as]}</span>}
          />
        </fieldset>
        {isNamed && (
          <fieldset>
            <legend>Who it is</legend>
            <OneOf
              options={NAMES}
              chosen={wanted.nameAs}
              onChange={(nameAs) => change({ nameAs })}
              words={(nameAs) => <span>{NAME_WORDS[nameAs]}</span>}
            />
          </fieldset>
        )}
        <label className="choice">
          <input
            type="checkbox"
            checked={wanted.hasNotes}
            onChange={({ target }) => change({ hasNotes: target.checked })}
          />
          With the notes
        </label>
        <button type="button" onClick={() => void save()}>
          Save the sheet
        </button>
        <Trouble words={trouble} />
        <p role="status">
          {saved !== null && 'Saved. It leaves this device only where you send it.'}
        </p>
      </details>
    </section>
  );
}

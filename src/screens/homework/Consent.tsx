import { useId } from 'react';

/** Who agrees: a grown-up, or somebody under 18 with their guardian; null until it is said. */
export type Agreed = 'adult' | 'minor' | null;

const SAYS: Record<NonNullable<Agreed>, string> = {
  adult: 'I am 18 or older, and I agree to do this alone.',
  minor: 'I am under 18. A guardian agreed, and a grown-up is with me all the time.',
};

/** Asked each time, and kept nowhere. */
export function Consent({ agreed, onChange }: { agreed: Agreed; onChange: (to: Agreed) => void }) {
  const name = useId();
  return (
    <fieldset className="card consent">
      <legend>Do you agree?</legend>
      {(['adult', 'minor'] as const).map((who) => (
        <label key={who} className="choice">
          <input
            type="radio"
            name={name}
            value={who}
            checked={agreed === who}
            onChange={() => onChange(who)}
          />
          {SAYS[who]}
        </label>
      ))}
    </fieldset>
  );
}

import { useId } from 'react';

/** What to know of a passphrase for a file that is chosen now. */
export const OF_A_FILE =
  'Four or five words that do not belong together. Without it nobody can open the file, nor can Sayso.';

/** Typed without being shown. */
export function Passphrase({
  value,
  onChange,
  label = 'Passphrase',
  isNew = false,
  hint,
}: {
  value: string;
  onChange: (value: string) => void;
  label?: string;
  /** One that is chosen now. */
  isNew?: boolean;
  /** What to know of it; nothing where left out. */
  hint?: string;
}) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="password"
        autoComplete={isNew ? 'new-password' : 'off'}
        value={value}
        aria-describedby={hint === undefined ? undefined : `${id}-hint`}
        onChange={({ target }) => onChange(target.value)}
      />
      {hint !== undefined && (
        <p id={`${id}-hint`} className="hint">
          {hint}
        </p>
      )}
    </div>
  );
}

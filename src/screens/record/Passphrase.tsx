import { useId } from 'react';

/** Typed without being shown. */
export function Passphrase({
  value,
  onChange,
  isNew = false,
}: {
  value: string;
  onChange: (value: string) => void;
  /** One that is chosen now: what to know of it stands below. */
  isNew?: boolean;
}) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>Passphrase</label>
      <input
        id={id}
        type="password"
        autoComplete={isNew ? 'new-password' : 'off'}
        value={value}
        aria-describedby={`${id}-hint`}
        onChange={({ target }) => onChange(target.value)}
      />
      <p id={`${id}-hint`} className="hint">
        {isNew &&
          'Four or five words that do not belong together. Without it nobody can open the file, nor can Sayso.'}
      </p>
    </div>
  );
}

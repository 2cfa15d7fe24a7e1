import { useId } from 'react';

interface ChoiceProps {
  label: string;
  value: string;
  onChange: (value: string) => void;
  options: [value: string, words: string][];
  hint?: string;
}

/** One of a few, or nothing. */
export function Choice({ label, value, onChange, options, hint }: ChoiceProps) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-describedby={`${id}-hint`}
        onChange={(event) => onChange(event.target.value)}
      >
        <option value="">Not noted</option>
        {options.map(([each, words]) => (
          <option key={each} value={each}>
            {words}
          </option>
        ))}
      </select>
      <p id={`${id}-hint`} className="hint">
        {hint}
      </p>
    </div>
  );
}

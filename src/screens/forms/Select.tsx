import { useId } from 'react';
import { Wrong } from './Wrong';

interface SelectProps<T extends string> {
  label: string;
  value: T;
  onChange: (value: T) => void;
  options: readonly (readonly [value: T, words: string])[];
  /** What is wrong, or null. */
  wrong?: string | null | undefined;
  /** What it is for. */
  hint?: string;
}

/** One of several, with what is wrong with it right below. */
export function Select<T extends string>(props: SelectProps<T>) {
  const { label, value, onChange, options, wrong = null, hint } = props;
  const id = useId();
  const choose = (chosen: string) => {
    const option = options.find(([each]) => each === chosen);
    if (option !== undefined) onChange(option[0]);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-invalid={wrong !== null}
        aria-describedby={`${id}-wrong ${id}-hint`}
        onChange={(event) => choose(event.target.value)}
      >
        {options.map(([each, words]) => (
          <option key={each} value={each}>
            {words}
          </option>
        ))}
      </select>
      <Wrong id={`${id}-wrong`} words={wrong} />
      <p id={`${id}-hint`} className="hint">
        {hint}
      </p>
    </div>
  );
}

import { useId, type ChangeEvent } from 'react';
import { Wrong } from './Wrong';

interface TextFieldProps {
  label: string;
  value: string;
  onChange: (value: string) => void;
  /** What is wrong, or null. */
  wrong?: string | null | undefined;
  /** How it may be written. */
  hint?: string;
  type?: 'text' | 'date';
  inputMode?: 'numeric';
  /** What is often written there. */
  known?: readonly string[];
  /** It may have several lines. */
  hasLines?: boolean;
  /** Takes the keyboard when it appears. */
  isFirst?: boolean;
}

/** A field with its name above it, and what is wrong with it right below. */
export function TextField(props: TextFieldProps) {
  const { label, value, onChange, wrong = null, hint, type = 'text', inputMode } = props;
  const { known = [] } = props;
  const id = useId();
  const field = {
    id,
    value,
    autoComplete: 'off',
    autoFocus: props.isFirst,
    'aria-invalid': wrong !== null,
    'aria-describedby': `${id}-wrong ${id}-hint`,
    onChange: ({ target }: ChangeEvent<HTMLInputElement | HTMLTextAreaElement>) =>
      onChange(target.value),
  };
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {props.hasLines ? (
        <textarea rows={3} {...field} />
      ) : (
        <input
          type={type}
          inputMode={inputMode}
          list={known.length > 0 ? `${id}-known` : undefined}
          {...field}
        />
      )}
      {known.length > 0 && (
        <datalist id={`${id}-known`}>
          {known.map((each) => (
            <option key={each} value={each} />
          ))}
        </datalist>
      )}
      <Wrong id={`${id}-wrong`} words={wrong} />
      <p id={`${id}-hint`} className="hint">
        {hint}
      </p>
    </div>
  );
}

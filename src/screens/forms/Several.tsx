import { useId, type ReactNode } from 'react';
import { Wrong } from './Wrong';

interface SeveralProps<T extends string> {
  title: string;
  /** `one`: exactly one is chosen; `any`: none or more. */
  which: 'one' | 'any';
  options: readonly T[];
  chosen: readonly T[];
  onChange: (value: T) => void;
  words: (value: T) => ReactNode;
  /** What is wrong, or null. */
  wrong: string | null;
}

/** Answers under a title, with what is wrong right below. */
export function Several<T extends string>(props: SeveralProps<T>) {
  const { title, which, options, chosen, onChange, words, wrong } = props;
  const id = useId();
  return (
    <fieldset className="several">
      <legend>{title}</legend>
      <div className="choices">
        {options.map((value, at) => (
          <label key={value} className="choice">
            <input
              type={which === 'one' ? 'radio' : 'checkbox'}
              name={id}
              checked={chosen.includes(value)}
              aria-invalid={wrong !== null && at === 0}
              aria-describedby={`${id}-wrong`}
              onChange={() => onChange(value)}
            />
            {words(value)}
          </label>
        ))}
      </div>
      <Wrong id={`${id}-wrong`} words={wrong} />
    </fieldset>
  );
}

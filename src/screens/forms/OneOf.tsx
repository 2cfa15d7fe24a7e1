import { useId, type ReactNode } from 'react';

/** Radio buttons by value, one of them chosen. */
export function OneOf<T extends string>({
  options,
  chosen,
  onChange,
  words,
}: {
  options: readonly T[];
  chosen: T;
  onChange: (value: T) => void;
  words: (value: T) => ReactNode;
}) {
  const name = useId();
  return (
    <div className="choices">
      {options.map((value) => (
        <label key={value} className="choice">
          <input
            type="radio"
            name={name}
            value={value}
            checked={value === chosen}
            onChange={() => onChange(value)}
          />
          {words(value)}
        </label>
      ))}
    </div>
  );
}

import { useId } from 'react';
import { choicesOf, keyOf } from './narrowed';
import type { Only, PersonKnown } from './state';

const WORDS = { due: 'Due again', waits: 'A professional decides' };

interface NarrowProps {
  all: readonly PersonKnown[];
  only: Only | null;
  onChange: (only: Only | null) => void;
}

/** Everybody, those who need a look, or one squad; nothing where there is nothing to choose. */
export function Narrow({ all, only, onChange }: NarrowProps) {
  const id = useId();
  const choices = choicesOf(all);
  if (choices.length === 0) return null;
  const squads = choices.filter((one) => typeof one.only === 'object');
  const looks = choices.filter((one) => typeof one.only === 'string');
  const option = (one: { only: Only; count: number }) => (
    <option key={keyOf(one.only)} value={keyOf(one.only)}>
      {typeof one.only === 'object' ? one.only.squad : WORDS[one.only]} ({one.count})
    </option>
  );
  return (
    <div className="field">
      <label htmlFor={id}>Show</label>
      <select
        id={id}
        value={keyOf(only)}
        onChange={({ target }) =>
          onChange(choices.find((one) => keyOf(one.only) === target.value)?.only ?? null)
        }
      >
        <option value="">Everybody ({all.length})</option>
        {looks.map(option)}
        {squads.length > 0 && <optgroup label="Squads">{squads.map(option)}</optgroup>}
      </select>
    </div>
  );
}

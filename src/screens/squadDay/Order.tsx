import { useRef } from 'react';
import { UpAndDown } from '../forms/UpAndDown';
import type { PersonKnown } from '../people/state';

/** The order in which they are seen: up, down or out, by touch and by keys. */
export function Order({
  chosen,
  onChange,
}: {
  chosen: PersonKnown[];
  onChange: (ids: string[]) => void;
}) {
  const list = useRef<HTMLOListElement>(null);
  const ids = chosen.map(({ person }) => person.id);
  /** The keyboard stays with whom it moves; at an end the other button is the one that is left. */
  const move = (at: number, by: -1 | 1) => {
    const moved = [...ids];
    const [id] = moved.splice(at, 1);
    if (id === undefined) return;
    moved.splice(at + by, 0, id);
    onChange(moved);
    const isAtEnd = at + by === 0 || at + by === ids.length - 1;
    const wanted = isAtEnd ? -by : by;
    requestAnimationFrame(() =>
      list.current
        ?.querySelector<HTMLButtonElement>(`[data-person="${id}"] [data-by="${wanted}"]`)
        ?.focus(),
    );
  };
  return (
    <ol className="order" ref={list}>
      {chosen.map(({ person: { id, name } }, at) => (
        <li key={id} data-person={id}>
          <span className="name">
            {at + 1}. {name}
          </span>
          <span className="moves">
            <UpAndDown {...{ name, at }} of={ids.length} move={move} />
            <button
              type="button"
              aria-label={`Take ${name} out`}
              onClick={() => onChange(ids.filter((one) => one !== id))}
            >
              Out
            </button>
          </span>
        </li>
      ))}
    </ol>
  );
}

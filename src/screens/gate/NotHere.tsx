import type { Equipment, EquipmentId } from '../../domain/script';

interface NotHereProps {
  title?: string;
  equipment: Equipment[];
  missing: EquipmentId[];
  onChange: (missing: EquipmentId[]) => void;
}

/** What the chosen routine may use, to tick off what this gym lacks; closed until it is wanted. */
export function NotHere({ title = 'Not in this gym', equipment, missing, onChange }: NotHereProps) {
  if (equipment.length === 0) return null;
  const ticked = equipment.filter(({ id }) => missing.includes(id)).length;
  return (
    <details className="card not-here">
      <summary>
        {title}{' '}
        <span className="not-here-count">
          {ticked === 0 ? 'nothing ticked' : `${ticked} ticked`}
        </span>
      </summary>
      <fieldset>
        <legend>Tick what is missing. Other drills take its place, or it is left out.</legend>
        <div className="choices">
          {equipment.map(({ id, name }) => (
            <label key={id} className="choice">
              <input
                type="checkbox"
                checked={missing.includes(id)}
                onChange={({ target }) =>
                  onChange(
                    target.checked ? [...missing, id] : missing.filter((other) => other !== id),
                  )
                }
              />
              <span>{name}</span>
            </label>
          ))}
        </div>
      </fieldset>
    </details>
  );
}

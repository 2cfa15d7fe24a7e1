import type { Way } from '../../domain/areas';
import { WAY_WORDS } from '../words';

/** Who leads the session; only the ways in which the routine is run. */
export const WayOfRunning = ({
  ways,
  way,
  onChange,
}: {
  ways: Way[];
  way: Way;
  onChange: (way: Way) => void;
}) => (
  <fieldset className="card">
    <legend>How it is run</legend>
    <div className="choices">
      {ways.map((each) => (
        <label key={each} className="choice">
          <input
            type="radio"
            name="way"
            value={each}
            checked={each === way}
            onChange={() => onChange(each)}
          />
          <span>{WAY_WORDS[each]}</span>
        </label>
      ))}
    </div>
  </fieldset>
);

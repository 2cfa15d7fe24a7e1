import type { Way } from '../../domain/areas';
import { WAY_WORDS } from '../words';
import { OneOf } from '../forms/OneOf';

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
    <OneOf
      options={ways}
      chosen={way}
      onChange={onChange}
      words={(each) => <span>{WAY_WORDS[each]}</span>}
    />
  </fieldset>
);

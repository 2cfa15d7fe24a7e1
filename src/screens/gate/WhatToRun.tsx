import { OneOf } from '../forms/OneOf';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { NotHere } from './NotHere';
import type { ToRun, Wanted } from './toRun';
import { WayOfRunning } from './WayOfRunning';

interface WhatToRunProps {
  seat: Seat;
  wanted: Wanted;
  toRun: ToRun;
  onChange: (wanted: Wanted) => void;
}

/** Which routine, in which way, and what is not in this gym. */
export function WhatToRun({ seat, wanted, toRun, onChange }: WhatToRunProps) {
  const routines = useSeat(seat, (state) => state.routines);
  const language = useSeat(seat, (state) => state.book.language);
  const { ways, way, equipment, missing } = toRun;
  return (
    <>
      <fieldset className="card">
        <legend>What to run</legend>
        <OneOf
          options={routines.map(({ id }) => id)}
          chosen={wanted.routine}
          onChange={(routine) => onChange({ ...wanted, routine })}
          words={(id) => <span lang={language}>{routines.find((one) => one.id === id)?.name}</span>}
        />
      </fieldset>
      {ways.length > 1 && (
        <WayOfRunning ways={ways} way={way} onChange={(to) => onChange({ ...wanted, way: to })} />
      )}
      <NotHere
        equipment={equipment}
        missing={missing}
        onChange={(notHere) => onChange({ ...wanted, notHere })}
      />
    </>
  );
}

import { useState } from 'react';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';

/** A session that never ended is closed before anything of it is corrected (rule 14.9). */
export function CutOff({ seat }: { seat: Seat }) {
  const [trouble, setTrouble] = useState<string | null>(null);
  return (
    <section className="card" aria-labelledby="cut-off-title">
      <h2 id="cut-off-title">Cut off</h2>
      <p>
        This visit can still be gone on with. Close it, and its findings can be corrected; after
        that it cannot be gone on with.
      </p>
      <button type="button" onClick={() => void seat.visits.close().then(setTrouble)}>
        Close this visit
      </button>
      <Trouble words={trouble} />
    </section>
  );
}

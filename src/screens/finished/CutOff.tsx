import { useState } from 'react';
import { everyTurn, type SquadDay } from '../../domain/people/squadDay';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';

/** A session that never ended is closed before anything of it is corrected (rule 14.9). */
export function CutOff({ seat, session }: { seat: Seat; session: string }) {
  const isOfDay = useSeat(seat, ({ squadDay }) => squadDay !== null && has(squadDay.day, session));
  const [trouble, setTrouble] = useState<string | null>(null);
  return (
    <section className="card" aria-labelledby="cut-off-title">
      <h2 id="cut-off-title">Cut off</h2>
      <p>
        This visit can still be gone on with
        {isOfDay && ', when its turn comes again on the squad day'}. Close it, and its findings can
        be corrected; after that it cannot be gone on with.
      </p>
      <div className="pair">
        {!isOfDay && (
          <button type="button" onClick={() => seat.goOn(session)}>
            Go on with this visit
          </button>
        )}
        <button type="button" onClick={() => void seat.visits.close().then(setTrouble)}>
          Close this visit
        </button>
      </div>
      <Trouble words={trouble} />
    </section>
  );
}

const has = (day: SquadDay, session: string): boolean =>
  everyTurn(day).some((turn) => turn.session === session);

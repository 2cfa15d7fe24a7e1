import { useState } from 'react';
import { AskOnce } from '../forms/AskOnce';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';

/** Takes an athlete out of this device, once it was said what goes and what stays. */
export function Forget({ seat, id, name }: { seat: Seat; id: string; name: string }) {
  const [isAsking, setAsking] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const forget = async () => setTrouble(await seat.people.remove(id));
  return (
    <section className="card forget" aria-labelledby="forget-title">
      <h2 id="forget-title">Delete</h2>
      <p>
        Name, squad, year, measures and notes are erased from this device. The entries of the
        sessions stay in the record, without a name. On another device they are deleted too once a
        record saved from here on is brought in there; files that were saved before still have them.
      </p>
      {isAsking ? (
        <AskOnce
          question="They cannot be brought back."
          yes={`Delete ${name} for good`}
          no="Keep"
          onYes={() => void forget()}
          onNo={() => setAsking(false)}
        />
      ) : (
        <button type="button" onClick={() => setAsking(true)}>
          Delete {name}
        </button>
      )}
      <Trouble words={trouble} />
    </section>
  );
}

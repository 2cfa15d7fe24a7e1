import { useState } from 'react';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';

/** Locks the record at once; nothing where it has no passphrase. */
export function LockNow({ seat }: { seat: Seat }) {
  const isOn = useSeat(seat, (state) => state.lock.isOn);
  const [trouble, setTrouble] = useState<string | null>(null);
  return isOn ? (
    <>
      <button type="button" onClick={() => setTrouble(seat.lock.now())}>
        Lock now
      </button>
      <Trouble words={trouble} />
    </>
  ) : null;
}

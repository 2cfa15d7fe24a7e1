import { useState, type ReactNode } from 'react';
import { Trouble } from '../forms/Trouble';
import type { Became } from '../record/state';
import type { Seat } from '../seat';
import { SendOn } from './SendOn';
import type { Travels } from './state';

interface MakeItProps {
  seat: Seat;
  /** What the button says. */
  children: ReactNode;
  to: string;
  isFirst?: boolean;
  make: () => Promise<Became<Travels>>;
}

/** One tap makes it; then it is sent in whatever way there is. */
export function MakeIt({ seat, children, to, isFirst = false, make }: MakeItProps) {
  const [travels, setTravels] = useState<Travels | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setBusy] = useState(false);
  const press = async () => {
    setBusy(true);
    const became = await make();
    setBusy(false);
    setTrouble('say' in became ? became.say : null);
    setTravels('say' in became ? null : became);
  };
  return (
    <>
      {travels === null ? (
        <button
          type="button"
          className={isFirst ? 'first' : ''}
          disabled={isBusy}
          onClick={() => void press()}
        >
          {children}
        </button>
      ) : (
        <SendOn seat={seat} travels={travels} to={to} />
      )}
      <Trouble words={trouble} />
    </>
  );
}

import { useState } from 'react';
import { refusalOf, SURE_STOP } from '../../domain/hearing/deeds';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { usePressed } from './usePressed';
import { keyWords, REFUSAL_WORDS } from './words';

interface AskKeyProps {
  seat: Seat;
  /** What the key is for. */
  name: string;
  isTaken: (key: string) => boolean;
  onPress: (key: string) => void;
  onClose: () => void;
}

/** Waits for the key that a coach wants; Escape leaves everything as it is. */
export function AskKey({ seat, name, isTaken, onPress, onClose }: AskKeyProps) {
  const [refused, setRefused] = useState<string | null>(null);
  const panel = useFocusOnArrival<HTMLDivElement>();
  usePressed(seat, (key) => {
    const refusal = refusalOf(key);
    if (key === SURE_STOP) onClose();
    else if (refusal !== null) setRefused(REFUSAL_WORDS[refusal]);
    else if (isTaken(key)) setRefused(`“${keyWords(key)}” does that already. Press another one.`);
    else onPress(key);
  });
  return (
    <div ref={panel} tabIndex={-1} role="group" aria-label={`A key for ${name}`} className="asks">
      <p>
        <strong>Press the key, pedal or button that you want.</strong> Escape leaves it as it is.
      </p>
      <p role="alert" className="wrong">
        {refused !== null && (
          <>
            <Shape name="notice" /> {refused}
          </>
        )}
      </p>
      <button type="button" onClick={onClose}>
        Cancel
      </button>
    </div>
  );
}

import { lazy, Suspense, useEffect, useRef, useState } from 'react';
import type { Seat } from '../seat';

const SquadForm = lazy(() => import('./SquadForm'));

/** What can be done with the squad that is shown, as a whole. */
export function OfSquad({ seat, squad }: { seat: Seat; squad: string }) {
  const [isOpen, setOpen] = useState(false);
  const change = useRef<HTMLButtonElement>(null);
  const wasOpen = useRef(false);
  useEffect(() => {
    if (wasOpen.current && !isOpen) change.current?.focus();
    wasOpen.current = isOpen;
  }, [isOpen]);
  if (isOpen) {
    return (
      <Suspense fallback={<p>One moment.</p>}>
        <SquadForm seat={seat} squad={squad} onClose={() => setOpen(false)} />
      </Suspense>
    );
  }
  return (
    <button ref={change} type="button" className="add" onClick={() => setOpen(true)}>
      Change this squad
    </button>
  );
}

import { lazy, Suspense, useState } from 'react';
import type { Seat } from '../seat';

const AddForm = lazy(() => import('./AddForm'));

/** Two fields; everything else has time until later, on their own page. */
export function AddPerson({ seat }: { seat: Seat }) {
  const [isOpen, setOpen] = useState(false);
  if (isOpen) {
    return (
      <Suspense fallback={<p>One moment.</p>}>
        <AddForm seat={seat} onClose={() => setOpen(false)} />
      </Suspense>
    );
  }
  return (
    <button type="button" className="add" onClick={() => setOpen(true)}>
      Add an athlete
    </button>
  );
}

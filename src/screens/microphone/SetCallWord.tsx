import { lazy, Suspense, useRef, useState, type KeyboardEvent } from 'react';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';

/** Seldom opened, so that it does not delay the check. */
const CallWordForm = lazy(() => import('../gate/CallWordForm'));

/** The advice of a call word, followed on the spot: one tap to its form, one back. */
export function SetCallWord({ seat }: { seat: Seat }) {
  const callWord = useSeat(seat, (state) => state.coach.callWord);
  const [isOpen, setOpen] = useState(false);
  const opener = useRef<HTMLButtonElement>(null);
  const close = () => {
    setOpen(false);
    opener.current?.focus();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape') return;
    // It leaves the form, not the check.
    event.stopPropagation();
    close();
  };
  return (
    <section
      className={`call-word${isOpen ? ' card' : ''}`}
      aria-label="A call word"
      onKeyDown={onKeyDown}
    >
      <button
        ref={opener}
        type="button"
        aria-expanded={isOpen}
        onClick={() => (isOpen ? close() : setOpen(true))}
      >
        {isOpen
          ? 'Back to the result'
          : callWord === null
            ? 'Set a call word'
            : `Call word “${callWord}”: change it`}
      </button>
      {isOpen && (
        <div className="coach-words">
          <Suspense fallback={<p>One moment.</p>}>
            <CallWordForm seat={seat} isFirst />
          </Suspense>
        </div>
      )}
    </section>
  );
}

import { useEffect, useRef, useState } from 'react';
import { counting, type SaidFinding } from '../../domain/deciding/corrected';
import type { CueBook } from '../../domain/script';
import type { Seat } from '../seat';
import { SIDE_WORDS, titleOf } from '../words';
import { CorrectionForm } from './CorrectionForm';
import type { VisitRecord } from './state';

interface CorrectProps {
  book: CueBook;
  seat: Seat;
  record: VisitRecord;
  one: SaidFinding;
}

/** Opens the form that puts one finding right, and says when it is kept. */
export function Correct({ book, seat, record, one }: CorrectProps) {
  const [is, setIs] = useState<'closed' | 'open' | 'kept'>('closed');
  const button = useRef<HTMLButtonElement>(null);
  const wasOpen = useRef(false);
  useEffect(() => {
    if (wasOpen.current && is !== 'open') button.current?.focus();
    wasOpen.current = is === 'open';
  }, [is]);
  const { side } = counting(one);
  const name = `${titleOf(book, one.finding.prompt)}${side === null ? '' : `, ${SIDE_WORDS[side].toLowerCase()}`}`;
  if (is === 'open') {
    return (
      <CorrectionForm
        book={book}
        record={record}
        one={one}
        name={name}
        keep={async (said) => {
          const { finding, of } = one;
          const trouble = await seat.visits.correct({ finding, of, said });
          if (trouble === null) setIs('kept');
          return trouble;
        }}
        onClose={() => setIs('closed')}
      />
    );
  }
  return (
    <div className="correct-this">
      <button
        ref={button}
        type="button"
        aria-label={`Correct ${name}`}
        onClick={() => setIs('open')}
      >
        Correct
      </button>
      <p role="status">{is === 'kept' && 'Corrected. The outcome above is worked out anew.'}</p>
    </div>
  );
}

import { useState } from 'react';
import { toBeAllowed } from '../../domain/handover/making';
import type { CueBook, DrillId } from '../../domain/script';
import { MakeIt } from '../homework/MakeIt';
import type { Seat } from '../seat';
import type { Told } from '../view';
import { nameOf } from '../words';

interface HandOverProps {
  seat: Seat;
  book: CueBook;
  homework: Told<'end'>['homework'];
}

/** The homework of a visit goes over to the athlete's own device; what needs a yes of the coach asks for it. */
export function HandOver({ seat, book, homework }: HandOverProps) {
  const [allowed, setAllowed] = useState<DrillId[]>([]);
  const asked = toBeAllowed(homework);
  const isNone = asked.length === homework.length && allowed.length === 0;
  return (
    <div className="hand-over">
      <h3>Hand it over</h3>
      <p>
        The athlete’s phone leads it, without you. The drills go along, and no name. What comes back
        joins the record as reported by the athlete.
      </p>
      {asked.map((drill) => (
        <label key={drill} className="choice">
          <input
            type="checkbox"
            checked={allowed.includes(drill)}
            onChange={({ target }) =>
              setAllowed(
                target.checked ? [...allowed, drill] : allowed.filter((one) => one !== drill),
              )
            }
          />
          I allow the {nameOf(book, drill)} alone
        </label>
      ))}
      {isNone ? (
        <p>Without your yes nothing of it is handed over.</p>
      ) : (
        <MakeIt
          key={allowed.join(' ')}
          seat={seat}
          to="the athlete’s phone"
          make={() => seat.homework.handOver(allowed)}
        >
          Hand over the homework
        </MakeIt>
      )}
    </div>
  );
}

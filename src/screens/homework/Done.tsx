import { dateInWords } from '../dates';
import type { Seat } from '../seat';
import { MakeIt } from './MakeIt';
import type { KeptHomework } from './state';

/** What was done of it, to be sent to the coach. */
export const Done = ({
  seat,
  done,
  isFirst = false,
}: {
  seat: Seat;
  done: KeptHomework['done'];
  isFirst?: boolean;
}) => (
  <section className="card" aria-labelledby="done-title">
    <h2 id="done-title">Send it back</h2>
    <p>
      Done {done.length === 1 ? 'once' : `${done.length} times`}, last on{' '}
      {dateInWords(done.at(-1)?.startedAt ?? '')}. Your coach gets what you answered, set by set,
      and no name. It goes only where you send it.
    </p>
    <MakeIt
      seat={seat}
      isFirst={isFirst}
      to="your coach’s phone"
      make={() => seat.homework.sendBack()}
    >
      Send it back to the coach
    </MakeIt>
  </section>
);

import { useId, useState } from 'react';
import type { CueBook, Equipment } from '../../domain/script';
import { dateInWords } from '../dates';
import { AskOnce } from '../forms/AskOnce';
import { BeginButtons } from '../gate/BeginButtons';
import { NotHere } from '../gate/NotHere';
import { Hearing } from '../gate/Hearing';
import { PhoneLevel } from '../gate/PhoneLevel';
import { Sound } from '../gate/Sound';
import { WithoutNetwork } from '../gate/WithoutNetwork';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { AloneCautions } from './AloneCautions';
import { Consent, type Agreed } from './Consent';
import { Done } from './Done';
import type { KeptHomework } from './state';
import { Today } from './Today';

interface ToDoProps {
  seat: Seat;
  homework: KeptHomework;
  isKept: boolean;
}

/** Homework before it is begun: what, for whom it is not, who agrees, and one tap. */
export function ToDo({ seat, homework, isKept }: ToDoProps) {
  const book = useSeat(seat, (state) => state.book);
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const [agreed, setAgreed] = useState<Agreed>(null);
  const { handover, today, done } = homework;
  const line = useId();
  const canBegin = today !== null && today.tasks.length > 0;
  return (
    <>
      <Today book={book} day={today} />
      <NotHere
        title="Not here"
        equipment={equipmentOf(book, homework)}
        missing={handover.missing}
        onChange={(missing) => seat.homework.notThere(missing)}
      />
      {canBegin && (
        <>
          <AloneCautions />
          <div className="settings">
            {isHeard && <Hearing seat={seat} />}
            <Sound seat={seat} />
            <PhoneLevel seat={seat} />
          </div>
          <Consent agreed={agreed} onChange={setAgreed} />
          <div className="begin">
            <p id={line}>
              {agreed === null
                ? 'First say above who agrees. Then one tap begins.'
                : 'You have read the cautions, and nothing in them keeps you from beginning.'}
            </p>
            <BeginButtons
              {...{ seat, they: 'I agree', agreed: line, isDisabled: agreed === null }}
              begin={(listen) => seat.homework.begin(listen)}
            />
          </div>
        </>
      )}
      {done.length > 0 && <Done seat={seat} done={done} />}
      {isKept && <Remove seat={seat} handover={handover} />}
      <WithoutNetwork seat={seat} />
    </>
  );
}

/** What its drills, and those that may stand in for them, need and what a room may lack. */
function equipmentOf(book: CueBook, { handover, today }: KeptHomework): Equipment[] {
  const rungs = handover.tasks.map(({ area, rung }) => book.ladders[area]?.rungs[rung - 1]);
  const drills = [
    ...rungs.flatMap((on) => (on === undefined ? [] : [on.drill, ...(on.alternates ?? [])])),
    ...(today?.tasks ?? []).flatMap(({ drill, may }) => [drill, ...may]),
  ];
  const needed = [...handover.missing, ...drills.flatMap((id) => book.drills[id]?.equipment ?? [])];
  return Object.values(book.equipment).filter(
    ({ id, orElse }) => orElse === undefined && needed.includes(id),
  );
}

function Remove({
  seat,
  handover: { id, madeAt },
}: {
  seat: Seat;
  handover: KeptHomework['handover'];
}) {
  const [isAsking, setAsking] = useState(false);
  return (
    <section className="card" aria-labelledby="remove-title">
      <h2 id="remove-title">On this device</h2>
      <p>Handed over on {dateInWords(madeAt)}. It is offered here again until you remove it.</p>
      {isAsking ? (
        <AskOnce
          question="The homework leaves this device. What you did stays in its record."
          yes="Remove the homework"
          no="Keep it"
          onYes={() => seat.homework.remove(id)}
          onNo={() => setAsking(false)}
        />
      ) : (
        <button type="button" onClick={() => setAsking(true)}>
          Remove it
        </button>
      )}
    </section>
  );
}

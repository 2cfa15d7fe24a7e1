import { useEffect, useRef, useState, type FormEvent } from 'react';
import { personFrom, type FieldProblem } from '../../domain/people/personFrom';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { focusWrong } from '../forms/focusWrong';
import { FormEnd } from '../forms/FormEnd';
import { TextField } from '../forms/TextField';
import { InitialsOnly, useInitials } from './InitialsOnly';

/** Name and birth year of somebody new. */
export default function AddForm({ seat, onClose }: { seat: Seat; onClose: () => void }) {
  const today = useSeat(seat, (state) => state.people.today);
  const [name, setName] = useState('');
  const [birthYear, setBirthYear] = useState('');
  const [problems, setProblems] = useState<FieldProblem[]>([]);
  const [trouble, setTrouble] = useState<string | null>(null);
  const initials = useInitials({ name, birthYear }, null, today);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => focusWrong(form.current), [problems]);
  const add = async (event: FormEvent) => {
    event.preventDefault();
    const read = personFrom({ name: initials.name, birthYear }, { id: crypto.randomUUID(), today });
    setProblems(read.problems);
    if (read.person === null) return;
    const problem = await seat.people.save([read.person]);
    setTrouble(problem);
    if (problem === null) seat.people.showOne(read.person.id);
  };
  const sayOf = (field: FieldProblem['field']) => problems.find((one) => one.field === field)?.say;
  return (
    <form
      ref={form}
      className="card add-person"
      aria-label="Add an athlete"
      noValidate
      onSubmit={(event) => void add(event)}
    >
      <TextField isFirst label="Name" value={name} onChange={setName} wrong={sayOf('name')} />
      <TextField
        label="Birth year"
        value={birthYear}
        onChange={setBirthYear}
        wrong={sayOf('birthYear')}
        hint="Four digits; may be left empty."
        inputMode="numeric"
      />
      <InitialsOnly {...initials} />
      <FormEnd keep="Add" onClose={onClose} trouble={trouble} />
    </form>
  );
}

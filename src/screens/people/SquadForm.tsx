import { useEffect, useRef, useState, type FormEvent } from 'react';
import { dissolved, inSquad, renamed } from '../../domain/people/squads';
import { squadsOf } from '../../domain/people/found';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { focusWrong } from '../forms/focusWrong';
import { FormEnd } from '../forms/FormEnd';
import { TextField } from '../forms/TextField';

/** Renames a squad for all of its athletes at once, or dissolves it. */
export default function SquadForm({
  seat,
  squad,
  onClose,
}: {
  seat: Seat;
  squad: string;
  onClose: () => void;
}) {
  const { all, today } = useSeat(seat, (state) => state.people);
  const [name, setName] = useState(squad);
  const [wrong, setWrong] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isAsking, setAsking] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => focusWrong(form.current), [wrong]);
  const people = all.map(({ person }) => person);
  const theirs = inSquad(people, squad);
  const isOther = squadsOf(people).includes(name.trim()) && name.trim() !== squad;

  const rename = async (event: FormEvent) => {
    event.preventDefault();
    const read = renamed(people, squad, name, today);
    setWrong(read.problem);
    if (read.people === null) return;
    const problem = await seat.people.save(read.people);
    setTrouble(problem);
    if (problem !== null) return;
    onClose();
    seat.people.narrow({ squad: read.squad });
  };
  const dissolve = async () => {
    const problem = await seat.people.save(dissolved(people, squad));
    setTrouble(problem);
    if (problem === null) seat.people.narrow(null);
  };
  return (
    <form
      ref={form}
      className="card add-person"
      aria-label={`Change ${squad}`}
      noValidate
      onSubmit={(event) => void rename(event)}
    >
      <TextField
        isFirst
        label="Name of the squad"
        value={name}
        onChange={setName}
        wrong={wrong}
        hint={
          isOther
            ? 'There is a squad of this name: both become one.'
            : `For ${theirs.length === 1 ? 'its one athlete' : `all ${theirs.length} athletes`} at once.`
        }
      />
      <FormEnd keep="Rename" onClose={onClose} trouble={trouble} />
      {isAsking ? (
        <div className="pair">
          <button type="button" onClick={() => void dissolve()}>
            Dissolve: nobody is deleted
          </button>
          <button type="button" autoFocus onClick={() => setAsking(false)}>
            Keep it
          </button>
        </div>
      ) : (
        <button type="button" onClick={() => setAsking(true)}>
          Dissolve this squad
        </button>
      )}
    </form>
  );
}

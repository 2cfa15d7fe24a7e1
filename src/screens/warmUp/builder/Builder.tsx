import { useMemo, useRef, useState, type FormEvent } from 'react';
import type { CueBook } from '../../../domain/script';
import { PEOPLE, stationCards } from '../../../domain/warmUp/equipping';
import { planWarmUp, spokenSeconds } from '../../../domain/warmUp/planning';
import { warmUpProblems, wordingProblems } from '../../../domain/warmUp/problems';
import type { WarmUp } from '../../../domain/warmUp/warmUp';
import { Back } from '../../Back';
import { AskOnce } from '../../forms/AskOnce';
import { focusWrong } from '../../forms/focusWrong';
import { TextField } from '../../forms/TextField';
import { Trouble } from '../../forms/Trouble';
import { Wrong } from '../../forms/Wrong';
import type { Seat } from '../../seat';
import { useFocusOnArrival } from '../../useFocusOnArrival';
import { useSeat } from '../../useSeat';
import { Needs } from '../Needs';
import { StationCards } from '../StationCards';
import { lengthOf, peopleFrom } from '../words';
import { draftOf, newPart, warmUpFrom, type Draft, type PartDraft } from './draft';
import { MovableList } from './MovableList';
import { PartFields } from './PartFields';
import './builder.css';

const FORM = 'builder-form';

/** A warm-up of one's own: built from blocks, its time and what it needs told as it grows. */
export default function Builder({ seat }: { seat: Seat }) {
  const book = useSeat(seat, (state) => state.book);
  const from = useSeat(seat, (state) => state.warmUp?.building ?? null);
  const [begun] = useState(() => begin(book, from));
  const [draft, setDrafted] = useState(begun);
  const [people, setPeople] = useState('12');
  const [isTried, setTried] = useState(false);
  const [asksLeave, setAsksLeave] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  const page = useRef<HTMLElement>(null);
  const warmUp = useMemo(() => warmUpFrom(book, draft), [book, draft]);
  const judged = useJudged(seat, book, warmUp);
  const group = peopleFrom(people, PEOPLE);
  const size = 'people' in group ? group.people : null;
  const cards = size === null ? [] : stationCards(book, warmUp, size);
  const isNew = draft.id === '';

  const setDraft = (next: Draft) => {
    setDrafted(next);
    // What was said of it is of how it was.
    setTrouble(null);
  };
  const wrongOf = (path: string): string | null => {
    const problem = judged.problems.get(path);
    // What nobody has come to yet is not called wrong.
    const isOpen = path === 'name' ? draft.name === '' : /\.(blocks|stations)$/.test(path);
    return problem === undefined || (isOpen && !isTried) ? null : `It ${problem}.`;
  };
  const changePart = (key: string, change: Partial<PartDraft>) =>
    setDraft({
      ...draft,
      parts: draft.parts.map((part) => (part.key === key ? { ...part, ...change } : part)),
    });
  const keep = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (judged.problems.size > 0) {
      setTrouble('It is not kept yet: mend what is marked.');
      requestAnimationFrame(() => focusWrong(page.current));
      return;
    }
    setTrouble(await seat.warmUp.keep(warmUp));
  };
  return (
    <main className="page warm-up builder" lang="en" ref={page}>
      <header>
        <Back
          to="Group warm-up"
          onClick={() => (draft === begun ? seat.warmUp.leaveBuilder() : setAsksLeave(true))}
        />
        <h1 ref={heading} tabIndex={-1}>
          {isNew ? 'Build a warm-up' : 'Change a warm-up'}
        </h1>
      </header>
      {asksLeave && (
        <AskOnce
          question="Leave without keeping what you built?"
          yes="Leave it"
          no="Go on building"
          onYes={() => seat.warmUp.leaveBuilder()}
          onNo={() => setAsksLeave(false)}
        />
      )}
      <form id={FORM} className="card" onSubmit={(event) => void keep(event)}>
        <TextField
          label="Name"
          value={draft.name}
          onChange={(name) => setDraft({ ...draft, name })}
          wrong={wrongOf('name')}
          hint="As spoken: “Welcome to …”, such as “the warm-up of Monday”."
        />
      </form>
      <MovableList
        label="Parts"
        className="parts"
        items={draft.parts}
        onChange={(parts) => setDraft({ ...draft, parts })}
        nameOf={(_, at) => `Part ${at + 1}`}
      >
        {(part, at, moves) => (
          <PartFields
            {...{ book, part, at, moves }}
            wrongOf={(path) => wrongOf(`parts.${at}.${path}`)}
            onChange={(change) => changePart(part.key, change)}
            onRemove={
              draft.parts.length === 1
                ? null
                : () => setDraft({ ...draft, parts: draft.parts.filter((each) => each !== part) })
            }
          />
        )}
      </MovableList>
      <Wrong id="parts-wrong" words={wrongOf('parts')} />
      <div className="pair">
        <button
          type="button"
          onClick={() => setDraft({ ...draft, parts: [...draft.parts, newPart('together')] })}
        >
          Add a part together
        </button>
        <button
          type="button"
          onClick={() => setDraft({ ...draft, parts: [...draft.parts, newPart('stations')] })}
        >
          Add a part at stations
        </button>
      </div>
      <section className="card" aria-label="The group">
        <TextField
          label="People in the group"
          value={people}
          inputMode="numeric"
          onChange={setPeople}
          wrong={'wrong' in group ? group.wrong : null}
        />
        {size !== null && <Needs {...{ book, warmUp }} people={size} />}
      </section>
      {cards.length > 0 && <StationCards cards={cards} lang={book.language} />}
      <div className="total-bar">
        <p role="status">
          <strong>{judged.total}</strong>
        </p>
        <Trouble words={trouble} />
        <div className="pair">
          <button type="submit" form={FORM} className="first">
            Keep it on this device
          </button>
          <button
            type="button"
            disabled={judged.problems.size > 0}
            onClick={() => void seat.warmUp.saveFile(warmUp).then(setTrouble)}
          >
            Save it as a file
          </button>
        </div>
      </div>
    </main>
  );
}

const begin = (book: CueBook, from: WarmUp | null): Draft => {
  const draft = draftOf(book, from ?? { id: '', name: '', parts: [] });
  return draft.parts.length > 0 ? draft : { ...draft, parts: [newPart('together')] };
};

/** What is wrong, by its path, and how long it takes: by the plan that would play. */
function useJudged(seat: Seat, book: CueBook, warmUp: WarmUp) {
  return useMemo(() => {
    const { secondsOf, stretch } = seat.warmUp.pace();
    const problems = new Map<string, string>();
    const shape = warmUpProblems(book, warmUp);
    for (const { path, problem } of [...shape, ...wordingProblems(book, warmUp, secondsOf)])
      if (!problems.has(path.join('.'))) problems.set(path.join('.'), problem);
    const canPlan = shape.every(({ path: [first] }) => first === 'name');
    const plan = canPlan ? planWarmUp(book, warmUp, spokenSeconds(secondsOf, stretch)) : null;
    const total =
      plan === null || 'leastSeconds' in plan
        ? 'How long it takes is told once nothing is missing.'
        : `It takes ${lengthOf(plan.totalSeconds)}, ${plan.turns.length} ${plan.turns.length === 1 ? 'turn' : 'turns'}.`;
    return { problems, total };
  }, [seat, book, warmUp]);
}

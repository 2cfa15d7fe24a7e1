import { Back } from '../Back';
import { Trouble } from '../forms/Trouble';
import { REASON_WORDS } from '../finished/reasons';
import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { CameBackCard } from './CameBackCard';
import { Ended } from './Ended';
import { OpenIt } from './OpenIt';
import type { HomeworkStage } from './state';
import { ToDo } from './ToDo';
import '../gate/gate.css';
import './homework.css';

/** Homework: on the athlete's device it is opened, done and sent back, on the coach's taken in. */
export default function HomeworkScreen({ seat }: { seat: Seat }) {
  const stage = useSeat(seat, (state) => state.homework.stage);
  const heading = useFocusOnArrival<HTMLHeadingElement>(stage.at);
  const { title, lead } = wordsOf(stage);
  return (
    <main className="page homework" lang="en">
      <header>
        <Back to="Start" onClick={() => seat.homework.leave()} />
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {lead !== '' && <p className="lead">{lead}</p>}
      </header>
      <Staged seat={seat} stage={stage} />
    </main>
  );
}

function Staged({ seat, stage }: { seat: Seat; stage: HomeworkStage }) {
  switch (stage.at) {
    case 'opening':
      return <OpenIt seat={seat} />;
    case 'reading':
      return <p role="status">One moment.</p>;
    case 'refused':
      return (
        <>
          <Trouble words={stage.say} />
          <OpenIt seat={seat} />
        </>
      );
    case 'otherLanguage':
      return (
        <button type="button" className="first" onClick={() => seat.chooseLanguage(stage.language)}>
          Open it in {languageName(stage.language)}
        </button>
      );
    case 'homework':
      return <ToDo key={stage.homework.handover.id} seat={seat} {...stage} />;
    case 'done':
      return <Ended seat={seat} stage={stage} />;
    case 'report':
      return <CameBackCard seat={seat} {...stage} />;
    case 'joined':
      return <Joined seat={seat} person={stage.person} />;
  }
}

function Joined({ seat, person }: { seat: Seat; person: string | null }) {
  const name = useSeat(
    seat,
    ({ people }) => people.all.find((one) => one.person.id === person)?.person.name ?? null,
  );
  if (person === null || name === null) {
    return (
      <button type="button" className="first" onClick={() => seat.homework.leave()}>
        To the start
      </button>
    );
  }
  return (
    <button type="button" className="first" onClick={() => seat.people.showOne(person)}>
      To the page of {name}
    </button>
  );
}

function wordsOf(stage: HomeworkStage): { title: string; lead: string } {
  switch (stage.at) {
    case 'opening':
      return { title: 'Homework', lead: 'To be done alone, or done and sent back.' };
    case 'reading':
      return { title: 'Opening it', lead: '' };
    case 'refused':
      return { title: 'It was not taken', lead: '' };
    case 'otherLanguage':
      return {
        title: 'In another language',
        lead: `This homework is in ${languageName(stage.language)}. The page comes back in it. What came out of a file has to be opened once more then.`,
      };
    case 'homework':
      return {
        title: 'Your homework',
        lead: 'From a coach, for you to do alone. The coach decides what is done; Sayso says each cue, counts, and asks how it was.',
      };
    case 'done':
      return { title: REASON_WORDS[stage.end?.reason ?? 'completed'].title, lead: '' };
    case 'report':
      return {
        title: 'Homework came back',
        lead: 'Nothing is taken into the record before you say so.',
      };
    case 'joined':
      return {
        title: 'It is in the record',
        lead: `${stage.added === 1 ? 'One session' : `${stage.added} sessions`}, reported by the athlete.`,
      };
  }
}

/** "Spanish"; the code itself where the browser has no name for it. */
function languageName(code: string): string {
  try {
    return new Intl.DisplayNames('en', { type: 'language' }).of(code) ?? code;
  } catch {
    return code;
  }
}

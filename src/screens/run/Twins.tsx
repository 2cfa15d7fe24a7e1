import { useEffect, useRef, useState } from 'react';
import type { Command, Reply } from '../../domain/hearing/reply';
import type { CueBook } from '../../domain/script';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { isEnding, type View } from '../view';
import { PainKindTwins, PainNumberTwins, PainTwin, RedFlagTwins } from './PainTwins';
import { ResultTwins } from './ResultTwins';
import { Say, type Send } from './Say';
import { hasSelfCheck } from './selfCheck';

/** Touch twins of what can be said now: the open question's answers above, the rest below. */
export function Twins({ seat }: { seat: Seat }) {
  const view = useSeat(seat, (state) => state.view);
  const book = useSeat(seat, (state) => state.book);
  const isHomework = useSeat(seat, (state) => state.isHomework);
  const isSquadDay = useSeat(seat, (state) => state.squadDay?.stage === 'running');
  const [unwell, setUnwell] = useState(false);
  const panel = useRef<HTMLDivElement>(null);
  const question = `${view.prompt} ${view.step?.side ?? ''} ${view.step?.set ?? ''}`;
  useFocusKept(panel, question);
  const send = (reply: Reply) => {
    setUnwell(false);
    seat.reply(reply);
  };
  return (
    <div className="twins" ref={panel} tabIndex={-1} role="group" aria-label="Answer by touch">
      {unwell ? (
        <RedFlagTwins send={send} close={() => setUnwell(false)} />
      ) : (
        !isEnding(view) && <Answers key={question} {...{ view, send, book, isHomework }} />
      )}
      <div className="row always">
        {(isEnding(view) ? [] : alwaysAt(view)).map((command) => (
          <Say key={command} send={send} command={command} />
        ))}
        {isSquadDay && mayLeave(view) && !isEnding(view) && (
          <Say send={send} command="next-person" words="Next person" />
        )}
        <button
          type="button"
          className="unwell"
          aria-expanded={unwell}
          onClick={() => setUnwell(!unwell)}
        >
          Unwell
        </button>
      </div>
      <details className="more" hidden={isEnding(view)}>
        <summary>More</summary>
        <div className="row">
          {MORE.map((command) => (
            <Say key={command} send={send} command={command} />
          ))}
        </div>
      </details>
    </div>
  );
}

/** What the session takes at this moment besides the answer itself. */
function alwaysAt({ phase, prompt }: View): Command[] {
  if (phase === 'paused') return [];
  if (prompt === 'confirm') return ['repeat'];
  if (prompt.startsWith('pain/')) return ['pause', 'repeat', 'undo'];
  return ['pause', 'repeat', 'undo', 'skip'];
}

/** Not while pain or the end is asked about: that comes first. */
const mayLeave = ({ phase, prompt, halted }: View): boolean =>
  !prompt.startsWith('pain/') && !halted && (prompt !== 'confirm' || phase === 'confirming');

const MORE: Command[] = [
  'again',
  'back',
  'next',
  'lighter',
  'heavier',
  'louder',
  'quieter',
  'slower',
  'faster',
  'fewer-words',
  'more-words',
  'time-left',
  'help',
];

type AnswersProps = Send & { view: View; book: CueBook; isHomework: boolean };

function Answers({ view, send, book, isHomework }: AnswersProps) {
  if (view.phase === 'paused') {
    return <Say send={send} command="resume" className="first wide" />;
  }
  switch (view.prompt) {
    case 'idle':
      return <WorkTwins send={send} view={view} />;
    case 'confirm':
      return (
        <div className="row two">
          {view.either?.map(({ words, reply }) => (
            <button key={words} type="button" className="first" onClick={() => send(reply)}>
              {words}
            </button>
          ))}
          {!view.either && <Say send={send} command="yes" className="first" words={yesOf(view)} />}
          <Say send={send} command="no" words={noOf(view)} />
        </div>
      );
    case 'pain/how-much':
      return <PainNumberTwins send={send} />;
    case 'pain/kind':
      return <PainKindTwins send={send} />;
    default:
      return (
        <>
          {isHomework && hasSelfCheck(book, view.prompt) && (
            <div className="row two results">
              <Say send={send} command="yes" className="first" />
              <Say send={send} command="no" />
            </div>
          )}
          <ResultTwins send={send} book={book} view={view} />
        </>
      );
  }
}

const yesOf = ({ phase }: View): string => (phase === 'confirming' ? 'Yes' : 'Yes, end it');
const noOf = ({ phase }: View): string => (phase === 'confirming' ? 'No' : 'No, go on');

function WorkTwins({ send, view }: Send & { view: View }) {
  const isSet = view.step?.prompt.startsWith('set/') === true;
  const waits = view.phase === 'settling' || view.phase === 'resting';
  return (
    <div className={view.phase === 'repeating' || waits ? 'row three' : 'row two'}>
      {waits && <Say send={send} command="ready" className="first" />}
      {view.phase === 'repeating' && isSet && <Say send={send} command="rep" />}
      {/* Cut short as by voice: the question comes at once. */}
      {view.step !== null && <Say send={send} command="done" words={isSet ? 'Set done' : 'Done'} />}
      <PainTwin send={send} />
    </div>
  );
}

/** A tapped answer goes away with its question; the keyboard's place stays in the panel. */
function useFocusKept(panel: React.RefObject<HTMLDivElement | null>, question: string) {
  const hadFocus = useRef(false);
  useEffect(() => {
    const look = () => {
      hadFocus.current = panel.current?.contains(document.activeElement) === true;
    };
    document.addEventListener('focusin', look);
    return () => document.removeEventListener('focusin', look);
  }, [panel]);
  useEffect(() => {
    if (hadFocus.current && document.activeElement === document.body) panel.current?.focus();
  }, [panel, question]);
}

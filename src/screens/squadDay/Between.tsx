import type { Command } from '../../domain/hearing/reply';
import { OfThisOne } from '../gate/OfThisOne';
import { LevelMeter } from '../LevelMeter';
import { commandOf } from '../run/replies';
import { ToneSign } from '../run/ToneSign';
import { Troubles } from '../run/Troubles';
import { Typed } from '../run/Typed';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { useSessionKeys } from '../useSessionKeys';
import { WhatIsLeft } from './WhatIsLeft';
import { RED_FLAG_WORDS } from '../words';
import type { Sign, SquadDayState } from './state';
import { comingOf, countOf, nameIn, rowsOf } from './words';

/** Between two sessions: who is next, what is left, and every word's twin for touch and keys. */
export function Between({ seat }: { seat: Seat }) {
  const squadDay = useSeat(seat, (state) => state.squadDay);
  const all = useSeat(seat, (state) => state.people.all);
  const today = useSeat(seat, (state) => state.people.today);
  const silent = useSeat(seat, (state) => state.voice === 'none');
  const hears = useSeat(seat, (state) => state.microphone.state === 'hears');
  const language = useSeat(seat, (state) => state.language);
  const callWord = useSeat(seat, (state) => state.coach.callWord);
  const cue = useSeat(seat, (state) => state.view.cue?.text ?? '');
  const asks = squadDay?.asks ?? 'ready';
  const sign = squadDay?.signs?.at(-1);
  const coming = squadDay === null ? [] : comingOf(rowsOf(squadDay.day, all));
  const [next, ...after] = coming;
  // Their session is on its way, and nobody else is next until it is over.
  const now =
    squadDay?.stage === 'running' && squadDay.day.now !== null
      ? nameIn(all, squadDay.day.now.person)
      : undefined;
  const heading = useFocusOnArrival<HTMLHeadingElement>(now ?? `${asks} ${next?.person ?? ''}`);
  useSessionKeys(seat);
  if (squadDay === null) return null;
  const say = (command: Command) => () => seat.reply(commandOf(command));
  const name = next?.known.person.name ?? '';
  return (
    <main className="page between" lang="en" aria-label="Squad day">
      <p className="place">Squad day · {leftWords(after.length)}</p>
      <h1 ref={heading} tabIndex={-1}>
        {now === undefined ? (HEADINGS[asks] ?? `Next: ${name}`) : `Getting ready: ${now}`}
      </h1>
      {asks === 'help' && (
        <p className="sign-said">
          <Shape name="pain" /> The last session ended on a warning sign. See to that; the day
          waits.
        </p>
      )}
      {asks === 'sign' && sign !== undefined && (
        <SignSaid sign={sign} name={nameIn(all, sign.person)} />
      )}
      {asks === 'ready' && now === undefined && next !== undefined && (
        <OfThisOne known={next.known} today={today} />
      )}
      <p lang={language.chosen} className="cue" aria-live={silent ? 'polite' : 'off'}>
        {cue}
      </p>
      <ToneSign seat={seat} />
      {asks === 'end' ? (
        <div className="answers">
          <button type="button" className="first" onClick={say('yes')}>
            Yes, end it
          </button>
          <button type="button" onClick={say('no')}>
            No, go on
          </button>
        </div>
      ) : (
        <div className="answers">
          <button type="button" className="first" onClick={say('ready')}>
            Ready
          </button>
          <button type="button" onClick={say('next-person')}>
            Next person
          </button>
          <button type="button" onClick={say('repeat')}>
            Repeat
          </button>
        </div>
      )}
      {language.isHeard && (
        <p className="sayable-words">
          <Shape name="ear" /> You can say{callWord !== null && `, after “${callWord}”`}:{' '}
          {asks === 'end' ? 'yes, no' : 'ready, next person, repeat, stop'}
        </p>
      )}
      {!language.isHeard && <Typed seat={seat} />}
      {hears && <LevelMeter seat={seat} />}
      <Troubles seat={seat} />
      <Trouble words={squadDay.trouble} />
      <WhatIsLeft seat={seat} />
      <button type="button" className="end-day" onClick={say('stop')}>
        <Shape name="stop" /> Stop: end the squad day
      </button>
    </main>
  );
}

const HEADINGS: Partial<Record<SquadDayState['asks'], string>> = {
  end: 'End the squad day?',
  help: 'Help first',
  sign: 'Help first',
};

const SignSaid = ({ sign: { flag, hadTurn, isNoted }, name }: { sign: Sign; name: string }) => (
  <>
    <p className="sign-said">
      <Shape name="pain" /> A warning sign was said: {RED_FLAG_WORDS[flag].toLowerCase()}. Get help
      now, as your local rules say; the day waits.
    </p>
    <p role="status">
      {isNoted
        ? `It is noted ${hadTurn ? 'with the visit of' : 'on the page of'} ${name}, who was ${hadTurn ? 'seen last' : 'next'}. If it was somebody else’s, note it with their visit.`
        : 'It is being noted.'}
    </p>
  </>
);

const leftWords = (after: number): string =>
  after === 0 ? 'the last one' : `${countOf(after, 'comes', 'come')} after that`;

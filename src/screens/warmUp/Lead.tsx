import { useState, type CSSProperties } from 'react';
import type { Reply } from '../../domain/hearing/reply';
import { LevelMeter } from '../LevelMeter';
import { RedFlagTwins } from '../run/PainTwins';
import { commandOf } from '../run/replies';
import { Say } from '../run/Say';
import { ToneSign } from '../run/ToneSign';
import { Troubles } from '../run/Troubles';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useNowSeconds, useSeat } from '../useSeat';
import { useSessionKeys } from '../useSessionKeys';
import { secondsLeft } from '../view';
import type { WarmUpState } from './state';
import { capitalised, timeOf } from './words';
import '../run/run.css';
import '../run/twins.css';

/** While a group is led: what is done now, what is left of it, what comes next. */
export function Lead({ seat }: { seat: Seat }) {
  const warmUp = useSeat(seat, (state) => state.warmUp);
  const hears = useSeat(seat, (state) => state.microphone.state === 'hears');
  const callWord = useSeat(seat, (state) => state.coach.callWord);
  const [unwell, setUnwell] = useState(false);
  const screen = useFocusOnArrival<HTMLElement>();
  useSessionKeys(seat);
  if (warmUp === null) return null;
  const { turn, asksEnd, isHeld, endsAtMilliseconds, listen } = warmUp;
  const send = (reply: Reply) => {
    setUnwell(false);
    seat.reply(reply);
  };
  return (
    <main className="run lead-group" ref={screen} tabIndex={-1} aria-label="Group warm-up">
      <section className="stage" aria-label="Now">
        <p className="place">
          {turn !== null && `${turn.number} of ${turn.of}`}
          {endsAtMilliseconds !== null && ` · ends at ${timeOf(endsAtMilliseconds)}`}
        </p>
        <h1>{headingOf(warmUp)}</h1>
        {isHeld || asksEnd ? (
          <div className="doing-row">
            {turn !== null && <p className="doing">{turn.name}</p>}
            <ToneSign seat={seat} />
          </div>
        ) : (
          <Going seat={seat} />
        )}
        <Caption seat={seat} />
        {turn?.next != null && !asksEnd && <p className="coming">Next: {turn.next}</p>}
        {hears && (
          <p className="sayable-words">
            <Shape name="ear" /> You can say
            {listen === 'microphone' && callWord !== null && `, after “${callWord}”`}:{' '}
            {sayableNow(warmUp)}
          </p>
        )}
      </section>
      <div className="run-side">
        {hears && <LevelMeter seat={seat} />}
        <Troubles seat={seat} />
        {asksEnd ? (
          <div className="twins">
            <div className="row two">
              <Say send={send} command="yes" words="Yes, end it" />
              <Say send={send} command="no" words="No, rest here" />
            </div>
          </div>
        ) : unwell ? (
          <div className="twins">
            <RedFlagTwins send={send} close={() => setUnwell(false)} />
          </div>
        ) : (
          <div className="twins">
            <Say
              send={send}
              className="wide"
              command={isHeld ? 'resume' : 'pause'}
              words={isHeld ? 'Go on' : 'Hold on'}
            />
            <div className="row always">
              <Say send={send} command="again" words="One more" />
              <Say send={send} command="skip" words="Skip" />
              <Say send={send} command="back" words="Go back" />
              <button type="button" className="unwell" onClick={() => setUnwell(true)}>
                Unwell
              </button>
            </div>
          </div>
        )}
      </div>
      <button type="button" className="stop" onClick={() => send(commandOf('stop'))}>
        <Shape name="stop" /> Stop
      </button>
    </main>
  );
}

/** Led by touch, only what stops it is taken from the room. */
function sayableNow({ asksEnd, isHeld, listen }: WarmUpState): string {
  if (asksEnd) return 'yes, no';
  if (listen === 'hands') return 'stop';
  return isHeld ? 'go on, skip, go back, stop' : 'hold on, one more, skip, go back, stop';
}

function headingOf({ asksEnd, isHeld, turn }: WarmUpState): string {
  if (asksEnd) return 'Stopped: end it?';
  if (isHeld) return 'Held';
  return turn === null ? 'Welcome' : capitalised(turn.name);
}

const PHASES: Record<string, string> = {
  settling: 'Change',
  repeating: 'Work',
  exhaling: 'Breathe with the count',
};

/** What the group does, with the count that the voice keeps, else the seconds that are left. */
function Going({ seat }: { seat: Seat }) {
  const view = useSeat(seat, (state) => state.view);
  const nowSeconds = useNowSeconds(seat, view.endsAtSeconds !== null);
  const left = secondsLeft(view, nowSeconds);
  const { phase, phaseSeconds, count } = view;
  if (phase === null || left === null || phaseSeconds === null) return null;
  const isCounted = phase === 'exhaling' && count !== null;
  return (
    <>
      <div className="doing-row">
        <p className="doing">{PHASES[phase] ?? ''}</p>
        <ToneSign seat={seat} />
      </div>
      <div className={`figure phase-${phase}`}>
        <p className="number">
          <span>{isCounted ? count : left}</span>{' '}
          <span className="unit">{isCounted ? 'out' : 'seconds'}</span>
        </p>
        <div
          className="bar"
          aria-hidden="true"
          style={{ '--left': Math.min(1, left / phaseSeconds) } as CSSProperties}
        />
      </div>
    </>
  );
}

const LINGERS_SECONDS = 1;

/** The voice says it, so a screen reader is told only where there is no voice. */
function Caption({ seat }: { seat: Seat }) {
  const lang = useSeat(seat, (state) => state.language.chosen);
  const silent = useSeat(seat, (state) => state.voice === 'none');
  const cue = useSeat(seat, (state) => state.view.cue);
  const nowSeconds = useNowSeconds(seat, cue !== null);
  // What was said is in the way of what is done now.
  const text = cue !== null && nowSeconds < cue.endsAtSeconds + LINGERS_SECONDS ? cue.text : '';
  return (
    <p lang={lang} className="cue cue-small" aria-live={silent ? 'polite' : 'off'}>
      {text}
    </p>
  );
}

import { useId, useState } from 'react';
import { OneOf } from '../forms/OneOf';
import { Trouble } from '../forms/Trouble';
import { LOCK_MINUTES } from '../lock/state';
import { LockNow } from '../lock/LockNow';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { Passphrase } from './Passphrase';

/** The record of this device under a passphrase: on, changed, off, and when it locks by itself. */
export function LockRecord({ seat }: { seat: Seat }) {
  const lock = useSeat(seat, (state) => state.lock);
  const minutes = useId();
  return (
    <section className="card" aria-labelledby="lock-title">
      <h2 id="lock-title">Lock the record on this device</h2>
      {lock.isOn ? (
        <>
          <p>It is locked: athletes, notes and what was found lie under your passphrase.</p>
          <fieldset aria-labelledby={minutes}>
            <legend id={minutes}>When nobody touches it or speaks, it locks after</legend>
            <OneOf
              options={LOCK_MINUTES.map(String)}
              chosen={String(lock.afterMinutes)}
              onChange={(value) => {
                const chosen = LOCK_MINUTES.find((each) => String(each) === value);
                if (chosen !== undefined) seat.lock.after(chosen);
              }}
              words={(value) => `${value} minutes`}
            />
            <p className="hint">Never while a session, a warm-up or a squad day runs.</p>
          </fieldset>
          <LockNow seat={seat} />
          <Asking
            title="Change the passphrase"
            button="Change it"
            done="From now on the new passphrase opens it."
            isOldAsked
            isNewAsked
            onYes={(from, to) => seat.lock.change(from, to)}
          />
          <Asking
            title="Take the lock off"
            button="Take it off"
            done="The lock is coming off."
            isOldAsked
            onYes={(from) => seat.lock.turnOff(from)}
          />
        </>
      ) : (
        <>
          <p>
            Who athletes are, their notes and what was found are then unreadable on this device
            without your passphrase. It is asked for each time the page is opened, and after a while
            alone.
          </p>
          <p>
            <strong>
              Nobody can open it without the passphrase; there is no other way in. If it is
              forgotten, what is here is lost.
            </strong>{' '}
            Save the whole record in a file first, and keep that safe. What was written before may
            lie in the browser’s own files until it tidies them up.
          </p>
          <Asking
            title="Choose a passphrase"
            button="Lock the record"
            done=""
            isNewAsked
            onYes={(_, to) => seat.lock.turnOn(to)}
          />
        </>
      )}
      <p role="status">
        {lock.left !== null &&
          `Writing the record anew: ${String(lock.left)} to go. The page may be closed; it goes on when it is opened.`}
      </p>
      <Trouble words={lock.trouble} />
    </section>
  );
}

const NOT_THE_SAME = 'The two are not the same. Type the new passphrase twice, letter for letter.';

/** Asks for a passphrase, and for a new one twice. */
function Asking({
  title,
  button,
  done,
  isOldAsked = false,
  isNewAsked = false,
  onYes,
}: {
  title: string;
  button: string;
  /** Said once it is done. */
  done: string;
  isOldAsked?: boolean;
  isNewAsked?: boolean;
  onYes: (from: string, to: string) => Promise<string | null>;
}) {
  const [[from, to, again], setTyped] = useState(['', '', '']);
  const [isBusy, setBusy] = useState(false);
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<string | null>(null);
  const submit = async () => {
    setSaid('');
    if (isNewAsked && to !== again) return setTrouble(NOT_THE_SAME);
    setTrouble(null);
    setBusy(true);
    const problem = await onYes(from, to);
    setBusy(false);
    setTrouble(problem);
    if (problem !== null) return;
    setSaid(done);
    setTyped(['', '', '']);
  };
  return (
    <details>
      <summary>{title}</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void submit();
        }}
      >
        {isOldAsked && (
          <Passphrase
            label={isNewAsked ? 'Passphrase until now' : 'Passphrase'}
            value={from}
            onChange={(value) => setTyped([value, to, again])}
          />
        )}
        {isNewAsked && (
          <>
            <Passphrase
              isNew
              label="New passphrase"
              value={to}
              hint="Four or five words that do not belong together."
              onChange={(value) => setTyped([from, value, again])}
            />
            <Passphrase
              isNew
              label="New passphrase once more"
              value={again}
              onChange={(value) => setTyped([from, to, value])}
            />
          </>
        )}
        <button type="submit" disabled={isBusy}>
          {button}
        </button>
        <Trouble words={trouble} />
        <p role="status">{said}</p>
      </form>
    </details>
  );
}

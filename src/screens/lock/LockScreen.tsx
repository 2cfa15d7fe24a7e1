// The look comes first, so that each screen's own rules may refine it.
import '../look/tokens.css';
import '../look/base.css';
import { useState } from 'react';
import { Trouble } from '../forms/Trouble';
import { Passphrase } from '../record/Passphrase';
import { useFocusOnArrival } from '../useFocusOnArrival';

/** All there is while the record is locked. `open`: null once it is open, else what to do. */
export function LockScreen({ open }: { open: (passphrase: string) => Promise<string | null> }) {
  const [passphrase, setPassphrase] = useState('');
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setBusy] = useState(false);
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  const submit = async () => {
    if (isBusy) return;
    setBusy(true);
    setTrouble(null);
    setTrouble(await open(passphrase));
    setBusy(false);
  };
  return (
    <main className="page locked" lang="en">
      <header>
        <h1 ref={heading} tabIndex={-1}>
          Sayso is locked
        </h1>
        <p className="lead">The record on this device is under a passphrase.</p>
      </header>
      <form
        className="card"
        onSubmit={(event) => {
          event.preventDefault();
          void submit();
        }}
      >
        <Passphrase
          value={passphrase}
          onChange={setPassphrase}
          hint="Nobody can open it without the passphrase; there is no other way in."
        />
        <button type="submit" className="first" disabled={isBusy}>
          {isBusy ? 'Opening.' : 'Open it'}
        </button>
        <Trouble words={trouble} />
      </form>
      <p className="detail">
        Forgotten? What is here is lost then. Clear what this browser keeps of the page in the
        browser’s own settings, and bring in a record that you saved in a file.
      </p>
    </main>
  );
}

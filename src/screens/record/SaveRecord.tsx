import { useState } from 'react';
import { OF_A_FILE, Passphrase } from './Passphrase';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import type { Saved } from './state';

/** All of it into one file, under a passphrase where that is wanted. */
export function SaveRecord({ seat }: { seat: Seat }) {
  const [isLocked, setLocked] = useState(false);
  const [passphrase, setPassphrase] = useState('');
  const [isBusy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [saved, setSaved] = useState<Saved | null>(null);
  const save = async () => {
    setBusy(true);
    setSaved(null);
    const became = await seat.record.save(isLocked ? passphrase : null);
    setBusy(false);
    setTrouble('say' in became ? became.say : null);
    if ('say' in became) return;
    setSaved(became);
    setPassphrase('');
  };
  return (
    <section className="card" aria-labelledby="save-title">
      <h2 id="save-title">Save the whole record</h2>
      <label className="choice">
        <input
          type="checkbox"
          checked={isLocked}
          onChange={({ target }) => setLocked(target.checked)}
        />
        Lock the file with a passphrase
      </label>
      {isLocked && (
        <Passphrase value={passphrase} isNew hint={OF_A_FILE} onChange={setPassphrase} />
      )}
      <button type="button" disabled={isBusy} onClick={() => void save()}>
        {isBusy ? 'Saving.' : 'Save it in a file'}
      </button>
      <Trouble words={trouble} />
      <p role="status">{saved !== null && savedWords(saved)}</p>
    </section>
  );
}

const savedWords = ({ file, damaged }: Saved): string =>
  `Saved as ${file}.${
    damaged === 0
      ? ''
      : ` Of its entries ${damaged} ${damaged === 1 ? 'is' : 'are'} damaged, and marked so.`
  } Keep it where nobody reads it who should not.`;

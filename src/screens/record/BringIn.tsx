import { useRef, useState } from 'react';
import type { BroughtIn } from '../../domain/keeping/wholeRecord';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { Passphrase } from './Passphrase';
import { changesOf } from './words';

type Stands =
  | { at: 'nothing' }
  | { at: 'reading' }
  | { at: 'locked' }
  | { at: 'looked' | 'bringing'; would: BroughtIn }
  | { at: 'done'; did: BroughtIn };

/** A record out of a file: what it would change is told first, and nothing is changed before a tap. */
export function BringIn({ seat }: { seat: Seat }) {
  const [stands, setStands] = useState<Stands>({ at: 'nothing' });
  const [trouble, setTrouble] = useState<string | null>(null);
  const [passphrase, setPassphrase] = useState('');
  const [file, setFile] = useState<File | null>(null);
  const newest = useRef(0);
  const look = async (chosen: File, words: string | null) => {
    const turn = (newest.current += 1);
    setFile(chosen);
    setTrouble(null);
    setStands({ at: 'reading' });
    const became = await seat.record.look(chosen, words);
    // A file that was chosen meanwhile counts alone.
    if (turn !== newest.current) return;
    if ('say' in became) {
      setTrouble(became.say);
      setStands(words === null ? { at: 'nothing' } : { at: 'locked' });
    } else if ('isLocked' in became) setStands({ at: 'locked' });
    else setStands({ at: 'looked', would: became.would });
  };
  const bringIn = async (would: BroughtIn) => {
    // One tap brings it in once.
    setStands({ at: 'bringing', would });
    const became = await seat.record.bringIn();
    setTrouble('say' in became ? became.say : null);
    if ('say' in became) {
      setStands({ at: 'looked', would });
      return;
    }
    setPassphrase('');
    setStands({ at: 'done', did: became.did });
  };
  return (
    <section className="card" aria-labelledby="bring-title">
      <h2 id="bring-title">Bring a record in</h2>
      <p>
        A file that Sayso saved, here or on another device. What is here stays; what is in both
        comes once.
      </p>
      <label className="button file">
        {file === null ? 'Choose a file' : 'Choose again'}
        <input
          type="file"
          accept=".json,application/json"
          onChange={({ target }) => {
            const [chosen] = target.files ?? [];
            if (chosen !== undefined) void look(chosen, null);
            // Or the same file, mended, would be no change.
            target.value = '';
          }}
        />
      </label>
      <p role="status">{statusOf(stands, file?.name ?? '')}</p>
      {stands.at === 'locked' && file !== null && (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void look(file, passphrase);
          }}
        >
          <Passphrase value={passphrase} onChange={setPassphrase} />
          <button type="submit">Open it</button>
        </form>
      )}
      {stands.at === 'looked' && (
        <Would would={stands.would} onYes={() => void bringIn(stands.would)} />
      )}
      {stands.at === 'done' && <Changes came={stands.did} />}
      <Trouble words={trouble} />
    </section>
  );
}

function statusOf(stands: Stands, name: string): string {
  switch (stands.at) {
    case 'nothing':
      return '';
    case 'reading':
      return `Reading ${name}.`;
    case 'locked':
      return `${name} is locked.`;
    case 'bringing':
      return `Bringing in ${name}.`;
    case 'looked':
      return changesOf(stands.would).length === 0
        ? `Everything in ${name} is here already.`
        : `${name} would bring:`;
    case 'done':
      return 'It is in. What came:';
  }
}

const Would = ({ would, onYes }: { would: BroughtIn; onYes: () => void }) =>
  changesOf(would).length === 0 ? null : (
    <>
      <Changes came={would} />
      <button type="button" className="first" onClick={onYes}>
        Bring it in
      </button>
    </>
  );

const Changes = ({ came }: { came: BroughtIn }) => (
  <ul>
    {changesOf(came).map((words) => (
      <li key={words}>{words}</li>
    ))}
  </ul>
);

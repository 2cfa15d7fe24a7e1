import { useState } from 'react';
import { AskOnce } from '../forms/AskOnce';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import type { WarmUpOffer } from './state';
import { capitalised } from './words';

/** What can be done with the warm-up that is chosen, and the ways to one of one's own. */
export function OfOne({ seat, chosen }: { seat: Seat; chosen: WarmUpOffer }) {
  const [asksRemove, setAsksRemove] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const { warmUp, isOwn, name } = chosen;
  if (asksRemove)
    return (
      <AskOnce
        question={`Remove “${capitalised(name)}” from this device?`}
        yes="Remove it"
        no="Keep it"
        onYes={() => {
          setAsksRemove(false);
          void seat.warmUp.remove(chosen.id).then(setTrouble);
        }}
        onNo={() => setAsksRemove(false)}
      />
    );
  return (
    <>
      <div className="pair of-one">
        {isOwn && (
          <button type="button" onClick={() => seat.warmUp.build(warmUp)}>
            Change it
          </button>
        )}
        <button type="button" onClick={() => seat.warmUp.build({ ...warmUp, id: '' })}>
          Begin with a copy of it
        </button>
        <button type="button" onClick={() => void seat.warmUp.saveFile(warmUp).then(setTrouble)}>
          Save it as a file
        </button>
        {isOwn && (
          <button type="button" className="grave" onClick={() => setAsksRemove(true)}>
            Remove it
          </button>
        )}
        <button type="button" onClick={() => seat.warmUp.build({ id: '', name: '', parts: [] })}>
          Build a new one
        </button>
        <label className="button file">
          Bring in a file
          <input
            type="file"
            accept=".yaml,.yml,.json,application/yaml,application/json"
            onChange={({ target }) => {
              const [file] = target.files ?? [];
              if (file !== undefined) void seat.warmUp.bringIn(file).then(setTrouble);
              // Or the same file, mended, would be no change.
              target.value = '';
            }}
          />
        </label>
      </div>
      <Trouble words={trouble} />
    </>
  );
}

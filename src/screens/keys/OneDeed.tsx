import { useEffect, useRef } from 'react';
import { deedOf, SURE_STOP, type Deed, type OwnKey } from '../../domain/hearing/deeds';
import type { Seat } from '../seat';
import { AskKey } from './AskKey';
import { Decide } from './Decide';
import { changeWords, DEED_WORDS, doesWords, keyWords, takeAwayWords } from './words';

/** What is open at a deed: a key is waited for, or it is asked whether one is to change. */
export type Open = 'asks' | { key: string; to: Deed | null };

interface OneDeedProps {
  seat: Seat;
  deed: Deed;
  own: readonly OwnKey[];
  /** Those that do it now. */
  keys: string[];
  open: Open | null;
  setOpen: (open: Open | null) => void;
  tell: (words: string) => void;
}

/** A deed with its keys; one more is added by pressing it. */
export function OneDeed({ seat, deed, own, keys, open, setOpen, tell }: OneDeedProps) {
  const { name, means } = DEED_WORDS[deed];
  const add = useRef<HTMLButtonElement>(null);
  const wasOpen = useRef(false);
  useEffect(() => {
    if (wasOpen.current && open === null) add.current?.focus();
    wasOpen.current = open !== null;
  }, [open]);

  const set = (key: string, to: Deed | null) => {
    seat.keys.set(key, to);
    tell(doesWords(key, to));
    setOpen(null);
    add.current?.focus();
  };
  const pressed = (key: string) => {
    if (deedOf(own, key) === null) set(key, deed);
    else setOpen({ key, to: deed });
  };
  return (
    <li className="deed">
      <h3>{name}</h3>
      {means !== undefined && <p className="detail">{means}</p>}
      <div className="its-keys">
        {keys.map((key) => (
          <span key={key} className="its-key">
            <kbd>{keyWords(key)}</kbd>
            {key !== SURE_STOP && (
              <button
                type="button"
                aria-label={`Take ${keyWords(key)} away from ${name}`}
                onClick={() => (deed === 'stop' ? setOpen({ key, to: null }) : set(key, null))}
              >
                ×
              </button>
            )}
          </span>
        ))}
        {keys.length === 0 && <span className="detail">No key</span>}
        <button
          ref={add}
          type="button"
          aria-label={`Add a key for ${name}`}
          disabled={open === 'asks'}
          onClick={() => setOpen('asks')}
        >
          Add a key
        </button>
      </div>
      {open === 'asks' && (
        <AskKey
          {...{ seat, name }}
          isTaken={(key) => deedOf(own, key) === deed}
          onPress={pressed}
          onClose={() => setOpen(null)}
        />
      )}
      {open !== null && open !== 'asks' && (
        <Decide
          words={
            open.to === null
              ? takeAwayWords(open.key)
              : changeWords(open.key, deedOf(own, open.key), open.to)
          }
          yes={open.to === null ? 'Take it away' : 'Change it'}
          onYes={() => set(open.key, open.to)}
          onClose={() => setOpen(null)}
        />
      )}
    </li>
  );
}

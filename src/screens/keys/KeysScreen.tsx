import { useEffect, useState } from 'react';
import { deedOf, keyName, keysOf, refusalOf, type Deed } from '../../domain/hearing/deeds';
import { Trouble } from '../forms/Trouble';
import { Back } from '../Back';
import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { OneDeed, type Open } from './OneDeed';
import type { KeysState } from './state';
import { doesWords, GROUPS } from './words';
import './keys.css';

const TROUBLE_WORDS: Record<NonNullable<KeysState['trouble']>, string> = {
  damaged: 'The keys that were kept here could not be read. All of them are as they come.',
  refused: 'This browser keeps nothing: your keys hold until the page is closed.',
};

/** Which key, pedal, remote or headset button does what. */
export default function KeysScreen({ seat }: { seat: Seat }) {
  const { own, trouble = null } = useSeat(seat, (state) => state.keys);
  const [opened, setOpened] = useState<{ deed: Deed; open: Open } | null>(null);
  const [told, setTold] = useState('');
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  useTried(opened === null, (key) => setTold(doesWords(key, deedOf(own, key))));
  const reset = () => {
    seat.keys.reset();
    setTold('All keys are as they come.');
  };
  return (
    <main className="page keys" lang="en">
      <header>
        <Back to="Back" onClick={() => seat.keys.leave()} />
        <h1 ref={heading} tabIndex={-1}>
          Keys
        </h1>
        <p className="lead">
          Pedals, page turners, remotes and headsets send keys. Press one to see what it does; add
          yours where you want it.
        </p>
      </header>
      <Trouble words={trouble === null ? null : TROUBLE_WORDS[trouble]} />
      <p role="status" className="told">
        {told}
      </p>
      {GROUPS.map(({ title, deeds }) => (
        <section key={title} className="card" aria-labelledby={`keys-${title}`}>
          <h2 id={`keys-${title}`}>{title}</h2>
          <ul className="deeds">
            {deeds.map((deed) => (
              <OneDeed
                key={deed}
                {...{ seat, deed, own }}
                keys={keysOf(own, deed)}
                open={opened?.deed === deed ? opened.open : null}
                setOpen={(open) => setOpened(open && { deed, open })}
                tell={setTold}
              />
            ))}
          </ul>
        </section>
      ))}
      <section className="card" aria-labelledby="keys-always">
        <h2 id="keys-always">Always so</h2>
        <ul>
          <li>Escape stops.</li>
          <li>At “how much does it hurt” the digits are the number.</li>
          <li>At “new, sharp or known” N, S and K answer. No pedal answers about pain.</li>
          <li>Where nothing else is set, H is “held”, and Y and N are “yes” and “no”.</li>
          <li>A key that is held down counts once.</li>
        </ul>
      </section>
      {(own.length > 0 || trouble === 'damaged') && (
        <button type="button" onClick={reset}>
          All keys as they come
        </button>
      )}
    </main>
  );
}

/** Escape is tried too, although nobody may choose it. */
const isTried = (key: string) => [null, 'stops'].includes(refusalOf(key));

/** Tells each key that is tried, while none is waited for; what it does on the page stays. */
function useTried(isOn: boolean, told: (key: string) => void) {
  useEffect(() => {
    if (!isOn) return undefined;
    const onKey = (event: KeyboardEvent) => {
      // A key still held down would press the button that the keyboard has come back to.
      if (event.repeat && (event.key === 'Enter' || event.key === ' ')) event.preventDefault();
      const isPlain = !event.ctrlKey && !event.altKey && !event.metaKey && !event.repeat;
      if (isPlain && isTried(event.key)) told(keyName(event.key));
    };
    window.addEventListener('keydown', onKey, { capture: true });
    return () => window.removeEventListener('keydown', onKey, { capture: true });
  });
}

import { useState, type ReactNode } from 'react';
import { Trouble } from '../forms/Trouble';
import type { Seat } from '../seat';
import { Code } from './Code';
import type { Travels } from './state';
import './homework.css';

interface SendOnProps {
  seat: Seat;
  travels: Travels;
  /** Whose device takes it: "the athlete's phone". */
  to: string;
}

/** Something that was made to travel: handed on, as a link, a code to be read, or a file. */
export function SendOn({
  seat,
  travels: { link, code, file, canShare, sessions },
  to,
}: SendOnProps) {
  const [told, setTold] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isShown, setShown] = useState(false);
  const done = (words: string | null, act: () => Promise<string | null>) => async () => {
    const problem = await act();
    setTrouble(problem);
    setTold(problem === null ? words : null);
  };
  return (
    <div className="send-on">
      <div className="pair">
        {canShare && (
          <Way first act={done(null, () => seat.homework.share())}>
            Send it
          </Way>
        )}
        {link !== null && (
          <Way
            act={done('The link is copied. Paste it into a message.', () =>
              seat.homework.copyLink(),
            )}
          >
            Copy the link
          </Way>
        )}
        <Way act={done(`Saved as ${file}. Send the file.`, () => seat.homework.saveFile())}>
          Save as a file
        </Way>
      </div>
      <p role="status">{told}</p>
      <Trouble words={trouble} />
      {sessions !== null && <p className="detail">{heldWords(sessions)}</p>}
      {code !== null && (
        <details onToggle={({ currentTarget }) => setShown(currentTarget.open)}>
          <summary>Show a code</summary>
          <p>The camera of {to} reads it. It holds the same as the link.</p>
          {isShown && <Code code={code} name={`QR code that holds the link, for ${to}`} />}
        </details>
      )}
      {link !== null && (
        <details>
          <summary>Show the link</summary>
          <p className="link">{link}</p>
        </details>
      )}
    </div>
  );
}

const Way = ({
  first = false,
  act,
  children,
}: {
  first?: boolean;
  act: () => Promise<void>;
  children: ReactNode;
}) => (
  <button type="button" className={first ? 'first' : ''} onClick={() => void act()}>
    {children}
  </button>
);

/** What is in link and code, where they cannot hold all. */
function heldWords({ all, inLink, inCode }: NonNullable<Travels['sessions']>): string {
  const one = (count: number) => (count === 1 ? 'the last session' : `the last ${count} sessions`);
  if (inLink === 0) return 'It is too long for a link or a code: save it as a file.';
  const link = inLink < all ? `The link holds ${one(inLink)} of ${all}; the file holds all.` : '';
  if (inCode === 0) return `${link} It is too long for a code.`.trim();
  return `${link} ${inCode < inLink ? `The code holds ${one(inCode)}.` : ''}`.trim();
}

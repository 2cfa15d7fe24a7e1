import { useState } from 'react';
import type { Side } from '../../domain/areas';
import type { FaultId } from '../../domain/faults';
import type { Reply } from '../../domain/hearing/reply';
import type { CueBook } from '../../domain/script';
import { Shape } from '../Shape';
import type { View } from '../view';
import { RESULT_WORDS, SIDE_WORDS, subjectOf } from '../words';
import { faultsAt, replyOf, resultWith } from './replies';
import { PainTwin } from './PainTwins';

const SIDES: (Side | 'both')[] = ['left', 'right', 'both'];
const OTHER: Record<Side, Side> = { left: 'right', right: 'left' };

/** Touch twins of a finding: side where there are sides, then the result, with its faults. */
export function ResultTwins({
  book,
  view,
  send,
}: {
  book: CueBook;
  view: View;
  send: (reply: Reply) => void;
}) {
  const sided = subjectOf(book, view.prompt)?.sided === true;
  const [side, setSide] = useState<Side | 'both' | null>(view.step?.side ?? null);
  const [naming, setNaming] = useState(false);
  const [faults, setFaults] = useState<FaultId[]>([]);
  const sendResult = (said: Partial<Reply>) => send(replyOf({ side, ...said }));
  const toggle = (id: FaultId) =>
    setFaults(faults.includes(id) ? faults.filter((other) => other !== id) : [...faults, id]);
  const result = resultWith(book, faults);

  return (
    <>
      {sided && (
        <div className="row three sides">
          <div role="group" aria-label="Side">
            {SIDES.map((name) => (
              <button
                key={name}
                type="button"
                aria-pressed={side === name}
                onClick={() => setSide(name)}
              >
                <Shape name={name} /> {SIDE_WORDS[name]}
              </button>
            ))}
          </div>
          {!naming && (side === 'left' || side === 'right') && (
            <button type="button" onClick={() => sendResult({ same: true })}>
              Same as {SIDE_WORDS[OTHER[side]].toLowerCase()}
            </button>
          )}
        </div>
      )}
      {naming ? (
        <>
          <div className="row faults" role="group" aria-label="What was lost">
            {faultsAt(book, view.prompt).map(({ id, readback }) => (
              <button
                key={id}
                type="button"
                aria-pressed={faults.includes(id)}
                onClick={() => toggle(id)}
              >
                {readback}
              </button>
            ))}
          </div>
          <div className="row two">
            <button type="button" onClick={() => setNaming(false)}>
              Cancel
            </button>
            <button
              type="button"
              className={`first ${result}`}
              onClick={() => sendResult({ result, faults })}
            >
              <Shape name={result} /> Send: {RESULT_WORDS[result].toLowerCase()}
            </button>
          </div>
        </>
      ) : (
        <div className="row two results">
          <button type="button" className="held" onClick={() => sendResult({ result: 'held' })}>
            <Shape name="held" /> Held
          </button>
          <button type="button" className="lost" onClick={() => setNaming(true)}>
            <Shape name="lost" /> Lost…
          </button>
          <button type="button" className="short" onClick={() => sendResult({ result: 'short' })}>
            <Shape name="short" /> Short
          </button>
          <PainTwin send={() => sendResult({ result: 'pain' })} />
        </div>
      )}
    </>
  );
}

import type { Seat } from '../seat';
import { Shape, type ShapeName } from '../Shape';
import { useSeat } from '../useSeat';
import type { Told, View } from '../view';
import './phoneLevel.css';

type Verdict = Told<'tilt'>['verdict'];

const SHIN: Record<Verdict, { shape: ShapeName; words: string; isSaid: boolean }> = {
  within: { shape: 'held', words: 'Shin within 10', isSaid: true },
  close: { shape: 'question', words: 'Shin close to 10: you decide', isSaid: false },
  outside: { shape: 'lost', words: 'Shin tilted', isSaid: true },
  read: { shape: 'notice', words: 'Arm, by the phone', isSaid: false },
  moving: { shape: 'not-tested', words: 'Moving: no angle', isSaid: false },
  lost: { shape: 'notice', words: 'The phone tells no angle', isSaid: true },
};

/**
 * What the phone as a level tells, while it looks. The number changes too often for a screen
 * reader: of it, only what it comes to is told, as often as that changes.
 */
export function Level({ seat, view: { tilt } }: { seat: Seat; view: View }) {
  const isUsed = useSeat(seat, (state) => state.level.stage === 'set');
  if (!isUsed && tilt === null) return null;
  const told = tilt === null ? null : SHIN[tilt.verdict];
  return (
    <>
      {tilt !== null && told !== null && (
        <div className={`tilt tilt-${tilt.verdict}`}>
          {tilt.degrees !== null && <p className="number">{tilt.degrees}°</p>}
          <p className="tilt-words">
            <Shape name={told.shape} /> {told.words}
          </p>
        </div>
      )}
      <p role="status" className="tilt-said">
        {told?.isSaid === true ? told.words : ''}
      </p>
    </>
  );
}

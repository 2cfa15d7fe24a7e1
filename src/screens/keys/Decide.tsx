import { useId } from 'react';
import { Shape } from '../Shape';
import { useFocusOnArrival } from '../useFocusOnArrival';

interface DecideProps {
  /** What would change. */
  words: string;
  yes: string;
  onYes: () => void;
  onClose: () => void;
}

/** Asked before a key that does something already does something else. */
export function Decide({ words, yes, onYes, onClose }: DecideProps) {
  const panel = useFocusOnArrival<HTMLDivElement>();
  const said = useId();
  return (
    <div
      ref={panel}
      tabIndex={-1}
      role="group"
      aria-labelledby={said}
      className="asks"
      onKeyDown={(event) => event.key === 'Escape' && onClose()}
    >
      <p id={said}>
        <Shape name="notice" /> {words}
      </p>
      <div className="pair">
        <button type="button" className="first" onClick={onYes}>
          {yes}
        </button>
        <button type="button" onClick={onClose}>
          Leave it
        </button>
      </div>
    </div>
  );
}

import { Shape } from './Shape';

/** The way back to the screen before, above the heading. */
export const Back = ({ to = 'Athletes', onClick }: { to?: string; onClick: () => void }) => (
  <button type="button" className="back" onClick={onClick}>
    <Shape name="left" /> {to}
  </button>
);

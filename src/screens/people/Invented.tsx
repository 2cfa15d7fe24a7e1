import { Shape } from '../Shape';

/** Marks what belongs to the invented club, wherever it is shown. */
export const Invented = () => (
  <span className="invented">
    <Shape name="not-tested" /> Invented
  </span>
);

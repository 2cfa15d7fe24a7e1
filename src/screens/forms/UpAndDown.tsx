import { Shape } from '../Shape';

/** Moves one of a list by one; where the focus is kept, `data-by` tells the two apart. */
export const UpAndDown = ({
  name,
  at,
  of,
  move,
}: {
  name: string;
  /** Its place, from 0, of so many. */
  at: number;
  of: number;
  move: (at: number, by: -1 | 1) => void;
}) => (
  <>
    <button
      type="button"
      data-by="-1"
      aria-label={`${name} up`}
      disabled={at === 0}
      onClick={() => move(at, -1)}
    >
      <Shape name="left" />
    </button>
    <button
      type="button"
      data-by="1"
      aria-label={`${name} down`}
      disabled={at === of - 1}
      onClick={() => move(at, 1)}
    >
      <Shape name="right" />
    </button>
  </>
);

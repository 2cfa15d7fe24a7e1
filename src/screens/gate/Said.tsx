import { Shape } from '../Shape';

/** What was asked for and what became of it: told beside the field. */
export interface Told {
  isWrong: boolean;
  words: string;
}

/** Tells it to a screen reader too, beside the field of `id`. */
export const Said = ({ id, told, isBusy }: { id: string; told: Told | null; isBusy: boolean }) => (
  <p id={id} role="status" className={told?.isWrong === true ? 'trouble' : ''}>
    {isBusy ? (
      'Checking what it sounds like…'
    ) : told === null ? null : (
      <>
        <Shape name={told.isWrong ? 'notice' : 'held'} /> {told.words}
      </>
    )}
  </p>
);

import { Shape } from '../Shape';

/** What went wrong and what to do, told at once; nothing where `words` is null. */
export const Trouble = ({ words }: { words: string | null }) => (
  <p role="alert" className="trouble">
    {words !== null && (
      <>
        <Shape name="notice" /> {words}
      </>
    )}
  </p>
);

import { Shape } from '../Shape';

/** What is wrong with a field and what to do; nothing where `words` is null. */
export const Wrong = ({ id, words }: { id: string; words: string | null }) => (
  <p id={id} className="wrong">
    {words !== null && (
      <>
        <Shape name="notice" /> {words}
      </>
    )}
  </p>
);

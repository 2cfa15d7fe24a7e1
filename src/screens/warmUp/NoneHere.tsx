import type { Seat } from '../seat';

/** In a language that has no warm-ups yet. */
export const NoneHere = ({ seat }: { seat: Seat }) => (
  <section className="card" aria-label="No warm-ups in this language">
    <p>
      The warm-ups are in English so far, and the language of the cues is another. Nothing can be
      led for a group in it.
    </p>
    <button type="button" className="first" onClick={() => seat.chooseLanguage('en')}>
      Change the language to English
    </button>
  </section>
);

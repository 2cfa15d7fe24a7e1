import { AREAS } from '../../domain/areas';
import { mayBeMinor } from '../../domain/people/age';
import { dateInWords } from '../dates';
import type { PersonKnown } from '../people/state';
import { Shape } from '../Shape';
import { AREA_WORDS } from '../words';

/** What has to be asked and said before hands go on, in plain words; of this athlete first. */
export const Cautions = ({ known, today }: { known: PersonKnown | null; today: string }) => (
  <section className="card cautions" aria-labelledby="cautions-title">
    <h2 id="cautions-title">Before hands go on</h2>
    {known !== null && <OfThisOne known={known} today={today} />}
    <ul>
      <li>
        Ask about pain, injury, surgery, pregnancy, and heart or blood-pressure history. A licensed
        professional decides about those. Sayso is not medical advice.
      </li>
      <li>Ask before you touch, and say what your hands will do.</li>
      <li>Under 18: consent and supervision as your local rules say.</li>
      <li>After a shoulder dislocation or shoulder surgery: no hanging.</li>
      <li>
        “Stop” works at any moment, spoken, tapped or with Escape. Pain pauses the work at once. A
        warning sign such as chest pain or dizziness ends the session.
      </li>
    </ul>
  </section>
);

function OfThisOne({ known: { person, open }, today }: { known: PersonKnown; today: string }) {
  const { mindText, guardianAgreedOn } = person;
  const waiting = AREAS.filter((area) => open[area]?.waits === true);
  const lines = [
    ...(mindText === '' ? [] : [`Keep in mind: ${mindText}`]),
    ...waiting.map(
      (area) => `${AREA_WORDS[area]}: a licensed professional decides before it goes on.`,
    ),
    ...(mayBeMinor(person, today) ? [consentWords(guardianAgreedOn)] : []),
  ];
  if (lines.length === 0) return null;
  return (
    <ul className="of-this-one" aria-label={`Of ${person.name}`}>
      {lines.map((line) => (
        <li key={line}>
          <Shape name="notice" /> <span>{line}</span>
        </li>
      ))}
    </ul>
  );
}

/** Of somebody who may be under 18. */
export const consentWords = (agreedOn: string | null): string =>
  agreedOn === null
    ? 'May be under 18, and no consent of a guardian is noted.'
    : `May be under 18. A guardian agreed on ${dateInWords(agreedOn)}.`;
